#pragma once

#include <string>

#include "terminal/ink.h"
#include "upkeep/drift.h"

namespace rtcmend {

/// The rate against a module's limit, what was noticed, and the readings.
std::string drift_text(const Drift& drift, const Ink& ink);

/// What there is to say about a first reading.
std::string first_reading_text(const ClockSample& sample);

}  // namespace rtcmend
