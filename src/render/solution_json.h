#pragma once

#include <string>

#include "discover/solve.h"
#include "render/json.h"

namespace rtcmend {

/// docs/json/ says what every key means. `poly`, `init` and the like are null where a kind has
/// none.
Json solution_json(const Solution& solution);

/// One model, as in solution_json.
Json model_json(const Model& model);

/// "16-bit sum over 10h-2Dh, stored at 2Eh-2Fh, high byte first": a found check in one line.
std::string check_in_words(const Check& check);

}  // namespace rtcmend
