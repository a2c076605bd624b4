#pragma once

#include <string>

#include "make/drives.h"
#include "render/ink.h"
#include "render/json.h"

namespace rtcmend {

/// A disk with the types that fit it. `layout` may be null: then the common table was asked.
struct DriveCard {
  const Disk& disk;
  const DriveAdvice& advice;
  const Layout* layout;
};

/// A table of the types that fit, best first, and how to enter the disk by hand. At most `most`
/// types are shown; how many are left out is said.
std::string drives_text(const DriveCard& card, std::size_t most, const Ink& ink);
/// Every type that fits; capacities in bytes.
Json drives_json(const DriveCard& card);

}  // namespace rtcmend
