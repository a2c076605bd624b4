#pragma once

#include <cstddef>
#include <vector>

#include "forms/listing.h"

namespace rtcmend {

/// Whether the numbers of a listing stand in columns, as programs print them: then a lost digit
/// shows, as it moves what follows on its line.
struct Alignment {
  bool aligned = false;
  std::vector<std::size_t> odd{};  ///< numbers of the few lines that do not stand in the columns
};

Alignment alignment_of(const Listing& listing);

}  // namespace rtcmend
