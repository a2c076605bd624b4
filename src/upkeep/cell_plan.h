#pragma once

#include <optional>
#include <string>
#include <vector>

#include "chip/calendar.h"
#include "chip/cautions.h"
#include "chip/part.h"
#include "upkeep/cell_life.h"
#include "upkeep/rework.h"

namespace rtcmend {

/// What is to be planned: which cell on which part, from when. What is not given goes by the part.
struct PlanQuestion {
  std::optional<Part> part;  ///< nothing = a potted part of 24 pins whose number is not known
  std::optional<Cell> cell;  ///< nothing = the usual one for the part
  std::optional<double> chip_microamps;
  std::optional<Diode> diode;  ///< nothing = what the part needs
  double celsius = 25;
  double powered_share = 0;
  DateTime fitted;  ///< when the new cell goes in
};

/// How the cell's voltage stands against what the chip takes.
enum class Supply {
  too_low,   ///< even a fresh cell is below the chip's least
  too_high,  ///< a fresh cell is above the chip's most
  to_the_end,
  not_quite,  ///< fresh it works; before its end point it falls below the chip's least
  unguarded,  ///< the part needs a diode, and nothing would keep +5 V from the cell
  uncharged   ///< a rechargeable cell where nothing charges it
};

/// Cell life and rework.
struct CellPlan {
  std::vector<Caution> cautions;  ///< to be said before anything else
  std::optional<Part> part;
  std::optional<CellInput> input;  ///< nothing where it is not known: then there is nothing to plan
  CellLoad load;
  std::string current_source;
  CellLife life;
  CellVoltage volts;
  Supply supply = Supply::to_the_end;
  Rework rework = Rework::potted;
  DateTime fitted;
  DateTime replace_by;  ///< at the cautious end of the range
  std::vector<WorkStep> steps;
  std::string steps_source;
  std::vector<Alternative> alternatives;
  bool works = false;  ///< the cell feeds the chip, and may be on it at all
};

/// Refuses (Error) what makes no sense; a cell that cannot work gets its verdict in the plan.
CellPlan plan_cell(const PlanQuestion& question);
/// The plan for the commonest case: the usual cell on this part, or on a potted one whose number is
/// not known.
CellPlan usual_plan(const DateTime& fitted, const std::optional<Part>& part = std::nullopt);

/// The day that lies so many years after another.
DateTime years_after(const DateTime& day, double years);

}  // namespace rtcmend
