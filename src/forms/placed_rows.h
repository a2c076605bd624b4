#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "forms/listing.h"
#include "forms/notation.h"

namespace rtcmend {

/// A row with its address as a number, and the lines that it goes on in.
struct PlacedRow {
  std::uint64_t address = 0;
  std::vector<const ListingRow*> parts{};
  bool star = false;

  const ListingRow& first() const { return *parts.front(); }
  std::size_t line() const { return first().line->number; }
};

struct PlacedRows {
  std::vector<PlacedRow> rows{};
  std::vector<const ListingRow*> loose{};  ///< without address, in front of all that have one
  bool segmented = false;                  ///< addresses are those of a buffer in memory
  bool from_file = false;                  ///< they have six digits or more, as those of files
};

/// The rows by their addresses in one radix. Error (input), with the line, for what is no address
/// and for a second segment.
PlacedRows placed_rows(const Listing& listing, int radix, const std::string& where);

/// The step that most addresses make to the next; 0 when they make none that is common.
std::uint64_t common_step(const std::vector<PlacedRow>& rows);

/// The bytes of a row, when most of the `count` rows with bytes fill the step in this notation;
/// else 0.
std::size_t filled_step(const std::vector<PlacedRow>& rows, std::uint64_t step,
                        const Notation& notation, std::size_t count);

/// The bytes of each row when the numbers in front count the rows, by one, instead of the bytes;
/// else 0.
std::size_t counted_rows(const std::vector<PlacedRow>& rows, const Notation& notation);
/// Turns the numbers of such rows into addresses.
void number_by_bytes(std::vector<PlacedRow>& rows, std::size_t row_size);

/// The first row whose address lost or gained a digit, where all are written with the same number;
/// null when there is none.
const PlacedRow* odd_address(const std::vector<PlacedRow>& rows);

/// The column where the row's address stands.
std::size_t address_column(const ListingRow& row);

}  // namespace rtcmend
