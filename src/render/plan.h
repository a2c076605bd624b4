#pragma once

#include <string>

#include "render/ink.h"
#include "render/json.h"
#include "upkeep/cell_plan.h"

namespace rtcmend {

/// Cautions first; then the cell's life, its voltage, the work and the other parts that fit.
std::string plan_text(const CellPlan& plan, const Ink& ink);
/// `cautions` first; `years`, `limited_by` (`charge`, `self-discharge` or `shelf-life`),
/// `charge_years`, `range`, `replace_by`, `volts`, `steps`, `alternatives`.
Json plan_json(const CellPlan& plan);

/// "charge", "self-discharge", "shelf-life".
std::string_view limit_word(Limit limit);
/// What the voltages mean, in a sentence or two.
std::string supply_words(const CellPlan& plan);

}  // namespace rtcmend
