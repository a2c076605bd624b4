#pragma once

#include <string_view>

namespace rtcmend::fuzz {

/// One attempt on one reader of outside data; every target defines it. Refusals (Error) are the
/// readers' right and end an attempt; anything else that goes wrong is a finding.
void attempt(std::string_view input);

/// Ends the program with a message when a promise is broken.
void must(bool holds, const char* promise);

}  // namespace rtcmend::fuzz
