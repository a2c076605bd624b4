#pragma once

#include <string>
#include <vector>

#include "codes/explain.h"
#include "codes/forecast.h"
#include "repair/suspects.h"
#include "terminal/ink.h"

namespace rtcmend {

/// The suspects with their odds, the likeliest ones only; empty when there are none. `dump` is the
/// dump's name, for the command line that accepts one.
std::string suspects_text(const std::vector<Suspect>& suspects, const std::string& dump,
                          const Ink& ink);

/// The codes that an image would raise, why, and what to do.
std::string forecast_text(const Forecast& forecast, const Ink& ink);

/// What codes say, what the dump shows, and the order of work.
std::string explain_text(const Explanation& explanation, const Ink& ink);

}  // namespace rtcmend
