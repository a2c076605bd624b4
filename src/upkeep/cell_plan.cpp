#include "upkeep/cell_plan.h"

#include "layout/parts_catalogue.h"

namespace rtcmend {

namespace {

constexpr double seconds_a_year = 365.25 * 86'400;

bool guarded(const CellPlan& plan) {
  return plan.input->between == Between::nothing || plan.load.diode != Diode::none;
}

Supply supply_of(const CellPlan& plan) {
  const CellVoltage& volts = plan.volts;
  if (!guarded(plan)) return Supply::unguarded;
  if (plan.load.cell.rechargeable() && plan.rework == Rework::potted) return Supply::uncharged;
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

namespace {

std::optional<CellInput> input_of(const std::optional<Part>& part) {
  return part ? part->cell_input : usual_cell_input();
}

Diode diode_needed(const CellInput& input) {
  return input.between == Between::nothing ? Diode::none : Diode::silicon;
}

CellLoad load_of(const PlanQuestion& question, const std::optional<CellInput>& input) {
  CellLoad load;
  load.celsius = question.celsius;
  load.powered_share = question.powered_share;
  const Part family;
  load.chip_microamps = question.chip_microamps.value_or(
      question.part ? question.part->cell_microamps : family.cell_microamps);
  load.cell = question.cell.value_or(usual_cell(input ? input->between : Between::nothing));
  if (!input) return load;
  load.diode = question.diode.value_or(diode_needed(*input));
  load.least_volts = input->least_volts;
  load.most_volts = input->most_volts;
  return load;
}

std::string current_source(const PlanQuestion& question) {
  if (question.chip_microamps) return "as given";
  return question.part ? question.part->cell_current_source
                       : "from memory: the family's planning figure";
}

/// When the next cell is due: a rechargeable one by its age, for its charge comes back.
double years_to_plan(const CellPlan& plan) {
  return plan.load.cell.rechargeable() ? plan.life.least_shelf_years : plan.life.least_years;
}

}  // namespace

CellPlan plan_cell(const PlanQuestion& question) {
  CellPlan result;
  result.cautions = bench_cautions();
  result.part = question.part;
  result.input = input_of(question.part);
  result.load = load_of(question, result.input);
  result.current_source = current_source(question);
  result.life = cell_life(result.load);
  result.volts = cell_voltage(result.load);
  result.rework = rework_of(result.part);
  if (result.input) result.supply = supply_of(result);
  result.fitted = question.fitted;
  result.replace_by = years_after(question.fitted, years_to_plan(result));
  result.steps_source = rework_source(result.part);
  result.alternatives = alternatives(result.part);
  result.works = has_cell_work(result.rework) && feeds(result.supply);
  // No work is planned with a cell that must not go on.
  if (result.works || !has_cell_work(result.rework))
    result.steps = rework_steps(result.part, result.load.cell.rechargeable());
  return result;
}

CellPlan usual_plan(const DateTime& fitted, const std::optional<Part>& part) {
  PlanQuestion question;
  question.part = part;
  question.fitted = fitted;
  return plan_cell(question);
}

}  // namespace rtcmend
