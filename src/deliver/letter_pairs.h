#pragma once

#include <cstdint>
#include <span>
#include <string>

namespace rtcmend {

/// Two capital letters a byte: byte = first + 10 * second, modulo 256 (asm/keyboard_loader.asm). Of
/// several pairs for a byte the one without letters that look alike is taken.
std::string letter_pairs(std::span<const std::uint8_t> bytes);

}  // namespace rtcmend
