#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

#include "forms/number.h"

namespace rtcmend {

/// The column of the first character that is no blank; the line's length when there is none.
std::size_t indent(std::string_view line);
/// The text without what stands at its end and is in the set.
std::string_view without_last(std::string_view text, std::string_view set);

/// The address in front of a line and where the rest begins.
struct LineAddress {
  std::string_view digits;
  Mark mark = Mark::none;
  std::string_view segment{};  ///< of segment:offset
  std::string_view label{};    ///< words in front of it: "Reg[" of "Reg[0A] = 26"
  std::size_t rest = 0;        ///< column of what follows
};

/// An address that something marks as one: a colon, an equals sign or an arrow behind it, or
/// segment:offset.
std::optional<LineAddress> marked_address(std::string_view line);

/// The first word of a line if it is a number, taken for an address.
std::optional<LineAddress> bare_address(std::string_view line);

}  // namespace rtcmend
