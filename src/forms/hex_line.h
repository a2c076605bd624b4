#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "forms/sizes.h"
#include "forms/source_lines.h"

namespace rtcmend {

/// Whether the lines of a hex text begin with an address, and how it is told from the bytes.
enum class AddressStyle {
  none,
  marked,  ///< a colon or equals sign behind it, or segment:offset
  bare,    ///< it has another number of digits than the bytes
};

/// Judges by one line, the first that holds bytes.
AddressStyle address_style(std::string_view line);

/// The address in front of a line, digits as written.
struct LineAddress {
  std::string_view digits;
  std::string_view segment;  ///< empty unless it was segment:offset
};

/// A line of hex text, taken apart.
struct HexLine {
  std::size_t number = 0;
  std::optional<LineAddress> address;
  std::size_t skipped = 0;  ///< bytes that a debugger left blank in front of the first one
  std::vector<std::vector<DumpByte>> groups;  ///< the words, each of one byte or several
  bool repeat = false;                        ///< a `*`: rows like the one before were left out
};

/// Throws Error (input) with the place for what is neither bytes, an ASCII column nor a comment,
/// and for a line without address among others that have one.
HexLine parse_hex_line(const SourceLine& line, AddressStyle style, const std::string& where);

/// The bytes of all groups in a row.
std::vector<DumpByte> bytes_of(const HexLine& line);

}  // namespace rtcmend
