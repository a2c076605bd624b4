#pragma once

#include <cstdint>
#include <string>

namespace rtcmend {

/// Whether a text column may show this character for the byte: the character itself, or a dot, a
/// blank or a foreign letter for what cannot be printed. Some programs show the lower seven bits of
/// that.
inline bool may_show(std::uint8_t byte, char c) {
  if (byte >= 0x20 && byte < 0x7F) return static_cast<char>(byte) == c;
  return c == '.' || c == ' ' || static_cast<char>(byte & 0x7F) == c ||
         static_cast<unsigned char>(c) >= 0x80;
}

/// What the text column of a listing shows for each byte of the chip, by address; 0 where it shows
/// nothing. Shorter than the chip, or empty, where there is no column.
using TextColumn = std::string;

/// Whether the column shows another byte than this one at an address.
inline bool contradicts(const TextColumn& column, std::size_t at, std::uint8_t byte) {
  return at < column.size() && column[at] != 0 && !may_show(byte, column[at]);
}

}  // namespace rtcmend
