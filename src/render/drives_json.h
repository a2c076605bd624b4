#pragma once

#include <string>

#include "make/drives.h"
#include "render/json.h"

namespace rtcmend {

/// A disk with the types that fit it. `layout` may be null: then the common table was asked.
struct DriveCard {
  const Disk& disk;
  const DriveAdvice& advice;
  const Layout* layout;
};

/// Every type that fits; capacities in bytes.
Json drives_json(const DriveCard& card);

}  // namespace rtcmend
