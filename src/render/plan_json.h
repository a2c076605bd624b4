#pragma once

#include <string>

#include "render/json.h"
#include "upkeep/cell_plan.h"

namespace rtcmend {

/// `cautions` first; `years`, `limited_by` (`charge`, `self-discharge` or `shelf-life`),
/// `charge_years`, `range`, `replace_by`, `volts`, `steps`, `alternatives`.
Json plan_json(const CellPlan& plan);

/// The cautions and their limit, a text each.
Json cautions_json(const std::vector<Caution>& cautions);

/// "charge", "self-discharge", "shelf-life".
std::string_view limit_word(Limit limit);

/// What the voltages mean, in a sentence or two.
std::string supply_words(const CellPlan& plan);

}  // namespace rtcmend
