#pragma once

#include <string>

#include "render/json.h"
#include "upkeep/drift.h"

namespace rtcmend {

/// `ppm` (null when nothing can be measured), `seconds_per_day`, `seconds_per_month` (30 days),
/// `ppm_uncertainty`, `verdict`, `events`, `readings`.
Json drift_json(const Drift& drift);

}  // namespace rtcmend
