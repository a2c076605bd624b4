#include "terminal/plan.h"

#include <optional>

#include "base/error.h"
#include "cli/clock_option.h"
#include "cli/commands.h"
#include "cli/part_option.h"
#include "cli/print.h"
#include "cli/units.h"
#include "layout/parts_catalogue.h"
#include "render/plan_json.h"
#include "upkeep/cell_plan.h"

namespace rtcmend {

namespace {

struct PlanOptions {
  std::string part, cell, capacity, volts, current, temperature, powered, fitted, diode;
  bool cautions = false;
  Voice voice;
};

Cell usual_cell_for(const std::string& part) {
  if (part.empty()) return usual_cell();
  const auto& input = part_given(part).cell_input;
  return usual_cell(input ? input->between : Between::nothing);
}

/// The cell that was asked for; nothing = the usual one for the part.
std::optional<Cell> cell_in(const PlanOptions& given) {
  if (!given.cell.empty() && !given.capacity.empty())
    refuse("--capacity", "--cell gives the capacity already", "leave one of the two out");
  if (given.cell.empty() && given.capacity.empty() && given.volts.empty()) return std::nullopt;
  Cell cell = given.capacity.empty()
                  ? (given.cell.empty() ? usual_cell_for(given.part) : cell_named(given.cell))
                  : cell_of_capacity(parse_milliamp_hours(given.capacity, "--capacity"));
  if (given.volts.empty()) return cell;
  return with_volts(std::move(cell), parse_volts(given.volts, "--volts"));
}

PlanQuestion question_in(const PlanOptions& given) {
  PlanQuestion question;
  if (!given.part.empty()) {
    check_part(given.part);
    question.part = need_part(given.part);
  }
  question.cell = cell_in(given);
  if (!given.current.empty()) question.chip_microamps = parse_microamps(given.current, "--current");
  if (!given.temperature.empty())
    question.celsius = parse_celsius(given.temperature, "--temperature");
  if (!given.powered.empty()) question.powered_share = parse_share(given.powered, "--powered");
  if (!given.diode.empty()) question.diode = diode_named(given.diode);
  question.fitted = given.fitted.empty() ? local_now() : parse_day(given.fitted, "--fitted");
  return question;
}

int print_cautions(const PlanOptions& given) {
  if (given.voice.json)
    refuse("--cautions", "--json has the cautions in any case", "leave --cautions out");
  print(cautions_text(bench_cautions(), given.voice.ink()));
  return exit_good;
}

int make_plan(const PlanOptions& given) {
  if (given.cautions) return print_cautions(given);
  const CellPlan made = plan_cell(question_in(given));
  if (given.voice.json)
    print_json(plan_json(made));
  else
    print(plan_text(made, given.voice.ink()));
  return made.works ? exit_good : exit_bad;
}

}  // namespace

Action set_up_plan(Options& options) {
  auto given = std::make_shared<PlanOptions>();
  options.value(given->part, "--part", "PART",
                "the number on the part's back; left out, a potted part; \"rtcmend chips\" lists "
                "them");
  options.value(
      given->cell, "--cell", "CELL",
      "the cell: 2032 (a CR2032), ER14250, 3.6V-NICKEL (a pack or barrel of NiCd or NiMH), "
      "4.5V-ALKALINE, 6V-LITHIUM and others; left out, the usual one for the part");
  options.value(given->capacity, "--capacity", "MAH",
                "or a lithium coin cell by its capacity in mAh");
  options.value(given->volts, "--volts", "V",
                "the cell's voltage, when its label says another than is usual for it");
  options.value(given->current, "--current", "CURRENT",
                "what the chip draws from the cell, 500nA or 0.5uA; left out, the part's own");
  options.value(given->temperature, "--temperature", "C",
                "where the machine stands, in degrees Celsius; left out, 25");
  options.value(given->powered, "--powered", "SHARE",
                "share of the time in which the machine is on, 0.3 or 30%; left out, never");
  options.choice(given->diode, "--diode", {"none", "silicon", "schottky"},
                 "what stands between cell and chip; left out, what the part needs");
  options.value(given->fitted, "--fitted", "DATE", "when the new cell goes in; left out, today");
  options.flag(given->cautions, "--cautions",
               "the cautions alone, to be read before a hand goes in");
  add_voice(options, given->voice);
  options.example("rtcmend plan");
  options.example("rtcmend plan --cautions");
  options.example("rtcmend plan --part DS12887 --cell 2032 --powered 10%");
  return [given] { return make_plan(*given); };
}

}  // namespace rtcmend
