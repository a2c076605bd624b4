#pragma once

#include "discover/trace.h"

namespace rtcmend {

/// What to do next in the machine so that its next dumps settle what a trace leaves open: a
/// sentence each, in the settings' own names, what matters most first.
std::vector<std::string> advise_next(const std::vector<Step>& steps, const Trace& trace);

}  // namespace rtcmend
