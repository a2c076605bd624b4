#pragma once

#include <string>
#include <vector>

#include "codes/explain.h"
#include "codes/forecast.h"
#include "render/json.h"
#include "repair/suspects.h"

namespace rtcmend {

/// All of them: [{id, text, odds, changes [{at, from, to}], mends [check ids]}].
Json suspects_json(const std::vector<Suspect>& suspects);
/// [{mends, odds}]: what is left for "none of these", for each set of checks.
Json none_json(const std::vector<Suspect>& suspects);

/// {codes [{code, means, because [finding ids], why, do}], misread}.
Json forecast_json(const Forecast& forecast);

/// {codes [{code, known, chip, means, causes [{text, seen [finding ids]}], do, source}], order}.
Json explain_json(const Explanation& explanation);

}  // namespace rtcmend
