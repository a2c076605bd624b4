#pragma once

#include <string>

#include "make/drives.h"
#include "render/drives_json.h"
#include "terminal/ink.h"

namespace rtcmend {

/// A table of the types that fit, best first, and how to enter the disk by hand. At most `most`
/// types are shown; how many are left out is said.
std::string drives_text(const DriveCard& card, std::size_t most, const Ink& ink);

}  // namespace rtcmend
