#pragma once

#include <string_view>

namespace rtcmend {

/// The board's firmware as Intel HEX; empty when the program was built without avr-gcc.
std::string_view firmware_hex();

}  // namespace rtcmend
