#pragma once

#include <string>
#include <vector>

#include "base/image.h"
#include "forms/hex_line.h"

namespace rtcmend {

/// The image from lines that all begin with an address, by the rules of read_hex(). Throws Error
/// (input) with the line.
Image image_by_address(const std::vector<HexLine>& lines, AddressStyle style,
                       const std::string& where);

/// True when the first word of each line is its address although it looks like a byte: "10 40 00
/// ..." where the next line begins with 10h plus the bytes of this one. Wants four lines at least,
/// so that it cannot be luck.
bool starts_with_addresses(const std::vector<HexLine>& lines);

/// The image from such lines.
Image image_by_first_word(const std::vector<HexLine>& lines, const std::string& where);

}  // namespace rtcmend
