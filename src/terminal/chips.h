#pragma once

#include <string>
#include <vector>

#include "chip/part.h"
#include "terminal/ink.h"

namespace rtcmend {

/// One line for each part.
std::string chips_text(const std::vector<Part>& parts, const Ink& ink);
/// A part in full: what it is, what it replaces, what replaces it, its pins.
std::string chip_text(const Part& part, const Ink& ink);

}  // namespace rtcmend
