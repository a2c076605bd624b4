#pragma once

#include <cstdint>
#include <vector>

#include "check/check.h"

namespace rtcmend {

/// Checks as the program on the old machine reads them (asm/checks.inc), for it to judge whether a
/// chip has lost its bytes.
std::vector<std::uint8_t> encode_check_rules(const std::vector<Check>& checks);

}  // namespace rtcmend
