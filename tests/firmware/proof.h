#pragma once

#include <string>
#include <vector>

namespace rtcmend::test {

/// Puts a firmware through every chip, fault and moment of the bench. Returns what is wrong with
/// it, by the first scene in which something is; empty = nothing.
std::vector<std::string> complaints(const std::string& firmware);

}  // namespace rtcmend::test
