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
  bool sources =
      false;  ///< what it rests on: ids and notes, checks, registers, where each fact is from
};

/// What the machine is called on a sheet: its title, else the dump's name without folders, which
/// say nothing to the reader of a sheet and something about its maker.
std::string sheet_title(const Sheet& sheet);
/// The sources that a sheet rests on, each once, in the order in which the sheet meets them.
std::vector<std::string> sources_of(const Sheet& sheet);
/// What is left for the pen.
const std::vector<std::string>& pen_lines();

/// The sheet as one HTML page that needs nothing else: no script, no network, styles inside. First
/// what the chip says: verdict, settings, plan, findings; then what is for hands: bytes to type,
/// cautions, and what was asked for beside that. Text from the dump, the layout, the title and the
/// note is escaped; bytes of passwords are left out.
std::string sheet_html(const Sheet& sheet);

}  // namespace rtcmend
