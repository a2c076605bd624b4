#pragma once

#include <string>

#include "forms/listing.h"

namespace rtcmend {

/// Listings of one byte a line often say it twice: "10  26  38  00100110". Where the numbers of a
/// line agree in different notations, on all lines, the first one is kept in every row and its
/// radix returned; nothing when the lines are not of this kind. Error (input), with the line, when
/// the numbers of a line do not agree although those of nearly all others do.
std::optional<int> keep_first_of_same(Listing& listing, const std::string& where);

}  // namespace rtcmend
