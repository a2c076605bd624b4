#pragma once

#include <string>
#include <string_view>

#include "render/json.h"
#include "upkeep/drift.h"

namespace rtcmend {

/// "within" and so on.
std::string_view verdict_word(DriftVerdict verdict);

/// `ppm` (null when nothing can be measured), `seconds_per_day`, `seconds_per_month` (30 days),
/// `ppm_uncertainty`, `verdict`, `events`, `readings`.
Json drift_json(const Drift& drift);

}  // namespace rtcmend
