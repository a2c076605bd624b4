#pragma once

#include <cstdint>
#include <span>
#include <string>

namespace rtcmend {

/// Commands of the DOS debugger that put bytes into memory from an offset on, with few keystrokes:
/// E with hex digits and short texts, F for stretches of zeros. Zeros may follow the last byte.
/// Lines of at most 79 characters, which end with CR LF.
std::string enter_bytes(std::uint16_t offset, std::span<const std::uint8_t> bytes);

}  // namespace rtcmend
