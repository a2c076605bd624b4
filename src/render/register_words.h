#pragma once

#include <cstdint>
#include <string>

#include "chip/registers.h"

namespace rtcmend {

/// What named bits hold in a register's byte.
unsigned value_of(const NamedBits& bits, std::uint8_t byte);
/// Where they stand: "7", "6-4".
std::string bit_numbers(const NamedBits& bits);

}  // namespace rtcmend
