#include "upkeep/cell_life.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "base/error.h"

namespace rtcmend {

namespace {

constexpr double hours_a_year = 24 * 365.25;

constexpr double room = 25;  // degrees Celsius; warmer than that everything ages faster

/// Chemical loss about doubles every ten degrees (from memory); below room temperature nothing is
/// gained, to stay on the safe side.
double warmth(double celsius) {
  return std::max(1.0, std::exp2((celsius - room) / 10));
}

void check_load(const CellLoad& load) {
  // Written so that NaN fails each of them.
  if (!(load.chip_microamps > 0 && load.chip_microamps <= 1000))
    refuse_choice("current", "the chip's current must be more than 0 and at most 1,000 uA",
                  "the family draws about 0.5 uA with its oscillator running");
  if (!(load.powered_share >= 0 && load.powered_share <= 1))
    refuse_choice("powered", "the share of time the machine is on lies between 0 and 1");
  if (!(load.celsius >= load.cell.coldest && load.celsius <= load.cell.hottest))
    refuse_choice(
        "temperature",
        fmt::format("the cell is made for {:g} to {:g} C", load.cell.coldest, load.cell.hottest),
        "outside that range it may leak; move the machine, not the limit");
}

double self_discharge_microamps(const CellLoad& load, const Margin& margin) {
  return load.cell.capacity_mah * 1000 * load.cell.self_discharge * margin.self_discharge *
         warmth(load.celsius) / hours_a_year;
}

double drain_microamps(const CellLoad& load, const Margin& margin) {
  return load.chip_microamps * margin.drain * (1 - load.powered_share);
}

/// What lies above the voltage that the part needs, behind the diode.
double usable(const CellLoad& load) {
  return usable_share(load.cell, load.least_volts + drop_of(load.diode, load.chip_microamps).most);
}

double charge_years(const CellLoad& load, const Margin& margin) {
  const double microamps = drain_microamps(load, margin) + self_discharge_microamps(load, margin);
  return load.cell.capacity_mah * usable(load) * margin.capacity * 1000 / microamps / hours_a_year;
}

/// Halves for so many degrees above room temperature; the cold gains nothing, to stay on the safe
/// side.
double shelf_years(const CellLoad& load, const Margin& margin) {
  const double degrees = std::max(0.0, load.celsius - room);
  return load.cell.shelf_years * margin.shelf * std::exp2(-degrees / margin.halving_degrees);
}

double years_with(const CellLoad& load, const Margin& margin) {
  return std::min(charge_years(load, margin), shelf_years(load, margin));
}

double diode_cost_years(const CellLoad& load) {
  CellLoad without = load;
  without.diode = Diode::none;
  return charge_years(without, expected) - charge_years(load, expected);
}

Limit limit_of(const CellLife& life) {
  if (life.charge_years >= life.shelf_years) return Limit::shelf;
  return life.drain_microamps >= life.self_discharge_microamps ? Limit::charge
                                                               : Limit::self_discharge;
}

double years_at(const CellLoad& load, double microamps) {
  return microamps > 0 ? load.cell.capacity_mah * 1000 / microamps / hours_a_year : 0;
}

}  // namespace

CellLife cell_life(const CellLoad& load) {
  check_load(load);
  CellLife life;
  life.drain_microamps = drain_microamps(load, expected);
  life.self_discharge_microamps = self_discharge_microamps(load, expected);
  life.drain_years = years_at(load, life.drain_microamps);
  life.self_discharge_years = years_at(load, life.self_discharge_microamps);
  life.charge_years = charge_years(load, expected);
  life.usable_share = usable(load);
  life.diode_cost_years = diode_cost_years(load);
  life.shelf_years = shelf_years(load, expected);
  life.least_shelf_years = shelf_years(load, cautious);
  life.limited_by = limit_of(life);
  life.years = years_with(load, expected);
  life.least_years = years_with(load, cautious);
  life.most_years = years_with(load, lucky);
  return life;
}

CellVoltage cell_voltage(const CellLoad& load) {
  const Drop drop = drop_of(load.diode, load.chip_microamps);
  CellVoltage volts;
  volts.chip_least = load.least_volts;
  volts.chip_most = load.most_volts;
  volts.fresh_least = load.cell.nominal_volts - drop.most;
  // On its charger a nickel cell stands at 1.45 V (from memory), a fifth above its label.
  volts.fresh_most = load.cell.nominal_volts * (load.cell.rechargeable() ? 1.2 : 1) - drop.least;
  volts.end = load.cell.end_volts - drop.most;
  volts.works_fresh = volts.fresh_least >= volts.chip_least && volts.fresh_most <= volts.chip_most;
  volts.works_to_the_end = volts.works_fresh && volts.end >= volts.chip_least;
  return volts;
}

}  // namespace rtcmend
