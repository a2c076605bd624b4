// How long a new cell lasts, and the work of changing it: a short version of `rtcmend plan`.
#include <fmt/format.h>

#include "render/plan_json.h"
#include "sheet/sheet_parts.h"

namespace rtcmend {

namespace {

Html pair(const char* name, const std::string& value) {
  return element("div", element("dt", name) + element("dd", value));
}

std::string life_words(const CellPlan& plan) {
  const CellLife& life = plan.life;
  const std::string why = life.limited_by == Limit::shelf
                              ? "its shelf life, not its charge"
                              : std::string(limit_word(life.limited_by));
  return fmt::format("{:.0f} to {:.0f} years, limited by {}", life.least_years, life.most_years,
                     why);
}

}  // namespace

Html plan_part(const CellPlan& plan) {
  const Cell& cell = plan.load.cell;
  const std::string part = plan.part ? plan.part->name : "a potted part, number not told";
  Html facts = pair("Part", part);
  if (has_cell_work(plan.rework)) {
    facts += pair("Cell", fmt::format("{}, {:g} mAh, {:g} V", cell.designation, cell.capacity_mah,
                                      cell.nominal_volts));
    facts += pair("Plan with", life_words(plan));
    facts += pair("Voltage", supply_words(plan));
  }
  Html steps;
  for (const WorkStep& step : plan.steps)
    steps += element(
        "li", element("b", step.title + ".") + own_markup(" ") + words(in_plain_words(step.text)));
  return element("dl", {{"class", "facts"}}, facts) + element("h3", "The work") +
         element("ol", {{"class", "steps"}}, steps) +
         element("p", {{"class", "small"}},
                 (has_cell_work(plan.rework)
                      ? "Cell: " + cell.source + ". Current: " + plan.current_source + ". Steps: "
                      : std::string("Steps: ")) +
                     plan.steps_source +
                     ". Another part, cell or temperature wants a plan of its own.");
}

}  // namespace rtcmend
