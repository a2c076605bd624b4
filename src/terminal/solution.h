#pragma once

#include <string>

#include "discover/solve.h"
#include "render/solution_json.h"
#include "terminal/ink.h"

namespace rtcmend {

/// The arithmetic of evidence, the models found, and what to dump next. names: of the dumps, in
/// their order; without them a dump is told by its number.
std::string solution_text(const Solution& solution, const Ink& ink,
                          const std::vector<std::string>& names = {});

}  // namespace rtcmend
