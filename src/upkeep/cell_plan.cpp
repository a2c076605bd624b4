#include "upkeep/cell_plan.h"

namespace rtcmend {

namespace {

constexpr double seconds_a_year = 365.25 * 86'400;

Supply supply_of(const CellVoltage& volts) {
  if (volts.fresh_least < volts.chip_least) return Supply::too_low;
  if (volts.fresh_most > volts.chip_most) return Supply::too_high;
  return volts.works_to_the_end ? Supply::to_the_end : Supply::not_quite;
}

bool feeds(Supply supply) {
  return supply == Supply::to_the_end || supply == Supply::not_quite;
}

}  // namespace

DateTime years_after(const DateTime& day, double years) {
  DateTime later = from_seconds_since_1980(seconds_since_1980(day) +
                                           static_cast<long long>(years * seconds_a_year));
  later.hour = later.minute = later.second = 0;
  return later;
}

CellPlan plan_cell(const PlanQuestion& question) {
  CellPlan result;
  result.cautions = bench_cautions();
  result.part = question.part;
  result.load = question.load;
  result.current_source = "as given";
  if (!question.current_given) {
    const Part family;
    result.load.chip_microamps =
        question.part ? question.part->cell_microamps : family.cell_microamps;
    result.current_source = question.part ? question.part->cell_current_source
                                          : "from memory: the family's planning figure";
  }
  result.life = cell_life(result.load);
  result.volts = cell_voltage(result.load);
  result.supply = supply_of(result.volts);
  result.rework = rework_of(result.part);
  result.fitted = question.fitted;
  result.replace_by = years_after(question.fitted, result.life.least_years);
  result.steps = rework_steps(result.part);
  result.steps_source = rework_source(result.part);
  result.alternatives = alternatives(result.part);
  result.works = feeds(result.supply) && result.rework != Rework::never;
  return result;
}

CellPlan usual_plan(const DateTime& fitted, const std::optional<Part>& part) {
  PlanQuestion question;
  question.part = part;
  question.load.cell = usual_cell();
  question.fitted = fitted;
  return plan_cell(question);
}

}  // namespace rtcmend
