#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "forms/line_address.h"
#include "forms/listing_lines.h"

namespace rtcmend {

/// A word of a row, and what number it can be.
struct RowWord {
  std::string_view text;
  std::size_t begin;  ///< column of its first character
  std::size_t end;    ///< column behind its last
  std::optional<Number> number{};
};

/// A row of a listing, taken apart without deciding yet how its numbers are meant.
struct ListingRow {
  const ListingLine* line = nullptr;
  std::optional<LineAddress> address{};
  std::vector<RowWord> words{};  ///< behind the address, up to what is certainly no byte
  std::string_view tail{};       ///< that: what begins with | > # ; or //
  std::string_view below{};      ///< the next line, if it has no bytes: perhaps the text column
  std::size_t skipped = 0;       ///< bytes that a debugger left blank in front of the first one
  bool star = false;             ///< rows like the one before were left out
};

/// A line as a row whose address is not known, or is no part of it.
ListingRow row_without_address(const ListingLine& line);
/// What stands behind an address.
ListingRow row_behind(const ListingLine& line, const LineAddress& address);

bool has_digit(std::string_view text);
/// Whether the line's words, its address among them, are numbers rather than words of a sentence.
bool is_numeric(const ListingRow& row);
/// Not a row, but more like one than like words: half of it numbers, and the rest short.
bool is_nearly_numeric(const ListingRow& row);
/// "00 01 02 ...": the numbers of the columns, in any radix, on top of the rows.
bool is_column_heading(const ListingRow& row);

/// The message's second line: what stands there, and a mark below the column.
std::string marked_line(const ListingLine& line, std::size_t column);

}  // namespace rtcmend
