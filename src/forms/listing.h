#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "forms/listing_row.h"
#include "forms/reading.h"

namespace rtcmend {

/// Where the addresses of the rows stand.
enum class PlaceInText { none, marked, bare };

/// A text taken apart into rows; points into `lines`.
struct Listing {
  Listing() = default;
  Listing(const Listing&) = delete;
  Listing& operator=(const Listing&) = delete;
  Listing(Listing&&) = default;
  Listing& operator=(Listing&&) = default;

  std::vector<ListingLine> lines;
  std::vector<ListingRow> rows;
  PlaceInText place = PlaceInText::none;
  std::vector<std::size_t> passed;    ///< numbers of the lines that carry no bytes, ascending
  std::vector<std::size_t> doubtful;  ///< those of them that hold several numbers all the same
};

/// Finds the rows of a text by what most of its lines have in common. Throws Error (input), with
/// the line, for a line among the rows that is nearly one of them.
Listing listing_of(std::string_view text, const std::string& where, const ReadingOptions& options);

/// "lines 1-3 and 9".
std::string line_list(const std::vector<std::size_t>& numbers);

}  // namespace rtcmend
