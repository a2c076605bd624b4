#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace rtcmend {

/// What framed_values() found.
struct Framed {
  std::string text;
  std::size_t others = 0;  ///< more arrays of the same kind
};

/// A program's text with blanks in place of all but the values of its array: those between the
/// brackets that hold most numbers, those behind DATA of BASIC or db, .byte and their like of
/// assemblers, or hex digits in quotes. Lines and columns stay what they are. Nothing when the text
/// has none of these.
std::optional<Framed> framed_values(std::string_view text);

}  // namespace rtcmend
