#pragma once

#include <string>
#include <vector>

#include "forms/attempt.h"

namespace rtcmend {

/// The reading that was taken, and what is to be said of it.
struct ChosenReading {
  Attempt attempt;
  Remarks remarks;
};

/// Makes the image of each attempt, adds what speaks for it beyond the text, and takes the one that
/// is far ahead of all that give other bytes. Error (input): the best one's own when it has one;
/// else, when several are close, all of them side by side.
ChosenReading choose(std::vector<Attempt> attempts, const Listing& listing,
                     const std::string& where, const ReadingOptions& options);

}  // namespace rtcmend
