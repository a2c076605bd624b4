#pragma once

#include <string>

#include "render/card.h"
#include "terminal/ink.h"

namespace rtcmend {

/// The bytes as a picture: sixteen a row, under each the letter of what it belongs to and the
/// number of the check that covers it, and the legend below. Unknown bytes are "??", those of
/// passwords "**".
std::string map_text(const Card& card, const Ink& ink);

}  // namespace rtcmend
