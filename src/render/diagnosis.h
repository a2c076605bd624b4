#pragma once

#include <string>
#include <vector>

#include "judge/explain.h"
#include "judge/forecast.h"
#include "judge/suspects.h"
#include "render/ink.h"
#include "render/json.h"

namespace rtcmend {

/// The suspects with their odds, the likeliest ones only; empty when there are none. `dump` is the
/// dump's name, for the command line that accepts one.
std::string suspects_text(const std::vector<Suspect>& suspects, const std::string& dump,
                          const Ink& ink);
/// All of them: [{id, text, odds, changes [{at, from, to}], mends [check ids]}].
Json suspects_json(const std::vector<Suspect>& suspects);

/// The codes that an image would raise, why, and what to do.
std::string forecast_text(const std::vector<Foretold>& codes, const Ink& ink);
/// {codes [{code, means, because [finding ids], why, do}]}.
Json forecast_json(const std::vector<Foretold>& codes);

/// What codes say, what the dump shows, and the order of work.
std::string explain_text(const Explanation& explanation, const Ink& ink);
/// {codes [{code, known, chip, means, causes [{text, seen [finding ids]}], do, standing}], order}.
Json explain_json(const Explanation& explanation);

}  // namespace rtcmend
