#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "forms/listing_lines.h"
#include "forms/reading.h"

namespace rtcmend {

/// A word of a row, and what number it can be.
struct RowWord {
  std::string_view text;
  std::size_t begin;              ///< column of its first character
  std::size_t end;                ///< column behind its last
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

/// Where the addresses of the rows stand.
enum class Place { none, marked, bare };

/// A text taken apart into rows; points into `lines`.
struct Listing {
  Listing() = default;
  Listing(const Listing&) = delete;
  Listing& operator=(const Listing&) = delete;
  Listing(Listing&&) = default;
  Listing& operator=(Listing&&) = default;

  std::vector<ListingLine> lines;
  std::vector<ListingRow> rows;
  Place place = Place::none;
  std::vector<std::size_t> passed;  ///< numbers of the lines that carry no bytes, ascending
  std::vector<std::size_t> doubtful;  ///< those of them that hold several numbers all the same
};

/// Finds the rows of a text by what most of its lines have in common. Throws Error (input), with the
/// line, for a line among the rows that is nearly one of them.
Listing listing_of(std::string_view text, const std::string& where, const ReadingOptions& options);

/// The message's second line: what stands there, and a mark below the column.
std::string marked_line(const ListingLine& line, std::size_t column);

/// "lines 1-3 and 9".
std::string line_list(const std::vector<std::size_t>& numbers);

}  // namespace rtcmend
