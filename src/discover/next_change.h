#pragma once

#include "discover/solve.h"

namespace rtcmend {

/// The bytes whose change splits what is still undecided best: those that about half of the
/// candidates cover. Looks at RAM bytes that have not varied yet.
NextChange choose_next_change(const DumpSet& evidence, const std::vector<Model>& models);

}  // namespace rtcmend
