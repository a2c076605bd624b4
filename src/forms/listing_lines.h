#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "forms/number.h"

namespace rtcmend {

/// A line of a listing, without what mail programs, forums, tables and terminals put around it.
struct ListingLine {
  std::size_t number;  ///< counted from 1
  std::string text;   ///< blanks in place of what was taken off, so that columns stay what they are
  std::string shown;  ///< as it stands in the file, for messages
};

/// The lines that may carry bytes, and the numbers of those that cannot: comments, rulers of
/// tables, what was typed at a prompt.
struct ListingLines {
  std::vector<ListingLine> lines;
  std::vector<std::size_t> passed;
};

/// Takes off marks of quoting, tags, the bars of a table and times in front of the lines. Throws
/// Error (input) as source_lines() does.
ListingLines listing_lines(std::string_view text, const std::string& where);

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
