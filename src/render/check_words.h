#pragma once

#include <cstdint>
#include <string>

#include "check/check.h"

namespace rtcmend {

/// A value of a check in hex, as many digits as it has: "0267".
std::string check_digits(const Check& check, std::uint16_t value);
/// What a check covers, as listed: "10-2D, 30".
std::string covered_text(const Check& check);

}  // namespace rtcmend
