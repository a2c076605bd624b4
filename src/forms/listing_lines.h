#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

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

}  // namespace rtcmend
