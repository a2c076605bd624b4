#pragma once

#include "upkeep/cell.h"

namespace rtcmend {

/// What a cell has to do.
struct CellLoad {
  Cell cell;
  double chip_microamps =
      0.5;              ///< drawn while the machine is off (DS12885 family: 0.5 uA, from memory)
  double celsius = 25;  ///< where the machine stands
  double powered_share = 0;  ///< 0 to 1: of the time, the machine feeds the chip itself
  Diode diode = Diode::none;
  double least_volts = 2.5, most_volts = 4.0;  ///< at the part's pins (Part::cell_input)
};

/// How far the figures behind a life may be off, as factors, and by how many degrees above room
/// temperature a shelf life halves (10 to 15, from memory). The others are rtcmend's own planning
/// margins: common practice, no source.
struct Margin {
  double capacity, drain, self_discharge, shelf, halving_degrees;
};
inline constexpr Margin cautious{0.8, 1.5, 2.0, 0.8, 10};
inline constexpr Margin expected{1.0, 1.0, 1.0, 1.0, 12.5};
inline constexpr Margin lucky{1.0, 0.7, 0.7, 1.0, 15};

/// What ends a cell's life first: the chip has drawn it empty, it has lost its charge by itself, or
/// it is older than a cell is made for.
enum class Limit { charge, self_discharge, shelf };

/// How long a cell lasts. Years.
struct CellLife {
  double drain_microamps = 0;           ///< chip, averaged over powered hours
  double self_discharge_microamps = 0;  ///< the cell's own loss as a current
  double drain_years = 0;  ///< by the chip's current alone; 0 where the chip never draws any
  double self_discharge_years = 0;  ///< by its own loss alone
  double charge_years = 0;          ///< by charge: both together
  double shelf_years = 0;           ///< how long the cell itself is made to last, this warm
  double years = 0;                 ///< what to count on
  Limit limited_by = Limit::charge;
  double least_years = 0, most_years = 0;  ///< a cautious and a lucky figure
  double least_shelf_years = 0;            ///< the cautious figure of shelf_years
  double usable_share = 1;                 ///< of its charge, down to what the part needs
  double diode_cost_years = 0;             ///< of charge_years, what the diode takes away
};

/// Volts at the chip's cell input against what the chip takes.
struct CellVoltage {
  double fresh_least = 0, fresh_most = 0;  ///< behind the diode
  double end = 0;  ///< at the cell's end point, behind the diode's larger drop
  double chip_least = 0, chip_most = 0;  ///< what the part takes
  bool works_fresh = false;
  bool works_to_the_end = false;
};

/// Refuses (Error) what makes no sense: negative or endless currents, a share outside 0 to 1, a
/// temperature outside the cell's.
CellLife cell_life(const CellLoad& load);
CellVoltage cell_voltage(const CellLoad& load);

}  // namespace rtcmend
