#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/error.h"
#include "forms/listing_row.h"

namespace rtcmend {

/// A row and the bytes that it came to.
struct CountedRow {
  const ListingRow* row;
  std::size_t bytes;
};

/// Why rows without addresses make no dump: one that is not as long as the others, one that is
/// missing or one that stands twice. Nothing when the rows do not say. `understood`: "4 rows of 16
/// bytes", for the message.
std::optional<Error> odd_row(const std::vector<CountedRow>& rows, std::size_t row_size,
                             const std::string& understood, const std::string& where);

}  // namespace rtcmend
