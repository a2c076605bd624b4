#pragma once

#include <string>
#include <vector>

#include "base/text_column.h"
#include "forms/reading.h"
#include "forms/sizes.h"

namespace rtcmend {

/// An image with what is to be said of how it was found.
struct Found {
  Image image;
  Remarks remarks{};
  TextColumn text{};     ///< of a listing
  bool adapted = false;  ///< the bytes were more or fewer than a chip's
};

/// Warns of 128 bytes in two halves alike, or nearly: a listing that stands twice, unless its
/// addresses say otherwise.
void warn_of_halves(Found& found);

/// The chip's bytes among those that follow one another in a file or a listing:
/// - 64 or 128 are the chip, 50 or 114 its RAM part;
/// - with options.at or size, those bytes alone;
/// - up to three too few leave the last ones unknown;
/// - a terminator behind them is left out: a line end, the end mark of DOS, a zero;
/// - the same block again and again is read once;
/// - FF or 00 behind 64 or 128 bytes that look like a chip's are left out;
/// - of 256 bytes whose first half looks like a chip's, that half is the chip's first bank.
/// All but the first two are said in the remarks. Error (input) for anything else, with the size.
Found chip_in(const std::vector<DumpByte>& bytes, const std::string& where,
              const ReadingOptions& options);

}  // namespace rtcmend
