#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "forms/chip_in_file.h"

namespace rtcmend {

/// The values between the braces of a C array, hex (0x40) or decimal, comments left out; what
/// stands around the braces is not looked at, but a length in brackets must agree. Counts as raw
/// does; values larger than a byte are words, read as a listing's. Refuses with the line number: a
/// second array, an octal or too large number, anything else.
Found read_c_array(std::string_view content, const std::string& where,
                   const ReadingOptions& options);

/// `const unsigned char image[64] = { 0x40, ... };`. Unknown bytes as write_raw().
std::string write_c_array(const Image& image, std::optional<std::uint8_t> fill);

}  // namespace rtcmend
