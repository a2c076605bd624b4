#pragma once

#include <string>

#include "forms/attempt.h"
#include "forms/chip_in_file.h"

namespace rtcmend {

/// The image that a listing's bytes make. Without addresses they follow one another as in a file.
/// With addresses, what no line gives is unknown, and:
/// - from 00h to 7Fh they are those of the chip; of six digits or more, from 0 over exactly 50 or
///   114 bytes, those of a file with the RAM part alone;
/// - elsewhere they are those of a buffer in memory or a place in a file, and count from the first
///   one, when they span 64 or 128 bytes, or 50 or 114 without a hole;
/// - a buffer given by segment and offset that spans less starts at the multiple of 80h below.
/// Error (input), with the line, for an address past the chip and for lines that disagree.
Found placed_image(const Attempt& attempt, const std::string& where, const ReadingOptions& options);

}  // namespace rtcmend
