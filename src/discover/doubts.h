#pragma once

#include "discover/trace.h"

namespace rtcmend {

/// Goes over the fields of a trace once they are read. A worked-out field that counts others in
/// every dump is recognised as their count; where one is not recognised, and where a field has a
/// byte that repeats or follows another of its own and might as well be a check, nothing is settled
/// about the settings concerned, and `open` says why.
/// `mixed`: dumps with several settings changed at once.
void settle_fields(const std::vector<Step>& steps, std::span<const Image> mixed, Trace& trace);

}  // namespace rtcmend
