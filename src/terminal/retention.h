#pragma once

#include <string>

#include "terminal/ink.h"
#include "upkeep/retention.h"

namespace rtcmend {

/// What became of the bytes without power, and the next measurement to make.
std::string retention_text(const Retention& retention, const Ink& ink);

}  // namespace rtcmend
