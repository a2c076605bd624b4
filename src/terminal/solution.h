#pragma once

#include <string>

#include "discover/solve.h"
#include "render/solution_json.h"
#include "terminal/ink.h"

namespace rtcmend {

/// The arithmetic of evidence, the models found, and what to dump next.
std::string solution_text(const Solution& solution, const Ink& ink);

}  // namespace rtcmend
