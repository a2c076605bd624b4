#pragma once

#include <string>

#include "render/plan_json.h"
#include "terminal/ink.h"
#include "upkeep/cell_plan.h"

namespace rtcmend {

/// The cautions alone, as every plan begins.
std::string cautions_text(const std::vector<Caution>& cautions, const Ink& ink);

/// Cautions first; then the cell's life, its voltage, the work and the other parts that fit.
std::string plan_text(const CellPlan& plan, const Ink& ink);

}  // namespace rtcmend
