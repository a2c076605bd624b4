#pragma once

#include <optional>
#include <string>
#include <vector>

#include "codes/forecast.h"
#include "render/card.h"
#include "repair/suspects.h"
#include "upkeep/cell_plan.h"

namespace rtcmend {

/// What goes on a bench sheet. It refers to the parts of the card, which must outlive the call.
struct Sheet {
  std::string title;  ///< what the machine is called; empty = the dump's name
  std::string note;   ///< about the machine, several lines allowed; empty = the dump's own
  Card card;
  Forecast forecast;
  std::vector<Suspect> suspects;
  std::optional<CellPlan> plan = std::nullopt;  ///< nothing = the sheet does without it
};

/// The sheet as one HTML page that needs nothing else: no script, no network, styles inside. Text
/// from the dump, the layout, the title and the note is escaped; bytes of passwords are left out.
std::string sheet_html(const Sheet& sheet);

}  // namespace rtcmend
