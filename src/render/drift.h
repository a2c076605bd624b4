#pragma once

#include <string>

#include "render/ink.h"
#include "render/json.h"
#include "upkeep/drift.h"

namespace rtcmend {

/// The rate against a module's limit, what was noticed, and the readings.
std::string drift_text(const Drift& drift, const Ink& ink);
/// `ppm` (null when nothing can be measured), `seconds_per_day`, `seconds_per_month` (30 days),
/// `ppm_uncertainty`, `verdict`, `events`, `readings`.
Json drift_json(const Drift& drift);

/// What there is to say about a first reading.
std::string first_reading_text(const ClockSample& sample);

}  // namespace rtcmend
