#pragma once

#include <span>
#include <string>
#include <string_view>

#include "chip/part.h"

namespace rtcmend {

/// What a cell is made of: by that its voltage falls.
enum class Chemistry { lithium_coin, lithium_thionyl, alkaline, nickel };

/// A cell, or a pack of cells, that may feed a clock chip.
struct Cell {
  std::string designation;  ///< "2032"
  double capacity_mah = 0;  ///< typical, to its end point
  double nominal_volts = 0;
  double end_volts = 0;             ///< where it counts as empty
  double self_discharge = 0;        ///< share of its capacity lost a year at room temperature
  double shelf_years = 0;           ///< kept for so long and no longer
  double coldest = 0, hottest = 0;  ///< degrees Celsius
  std::string source;
  Chemistry chemistry = Chemistry::lithium_coin;

  /// Whether it may, and must, be charged.
  bool rechargeable() const { return chemistry == Chemistry::nickel; }
};

/// The cells rtcmend knows by designation.
std::span<const Cell> known_cells();
/// The one that boards and holders of today take most often: a 2032. Where a diode stands between,
/// it is too low, and the pack of three alkaline cells is the usual one (common practice, no
/// source).
Cell usual_cell(Between between = Between::nothing);
/// By designation, the letters of a lithium coin cell in front allowed ("CR2032"). Refuses (Error)
/// an unknown one with the nearest ones, and a rechargeable coin cell by its letters.
Cell cell_named(std::string_view designation);
/// A lithium coin cell of a given capacity, for one that is not in the list. Refuses what is not
/// between 1 and 10,000 mAh.
Cell cell_of_capacity(double mah);
/// The same cell with another nominal voltage, and its end point in proportion. Refuses what is
/// not between 0.5 and 10 V, and more than a tenth beside the cell's own: that is another cell.
Cell with_volts(Cell cell, double volts);

/// What stands between cell and chip.
enum class Diode { none, silicon, schottky };

/// "none", "silicon", "schottky"; refuses (Error) another word.
Diode diode_named(std::string_view name);

/// Volts lost in a diode at clock-chip currents.
struct Drop {
  double least = 0, most = 0;
};
/// Estimates from memory: a silicon diode drops 0.3 to 0.4 V under 1 uA, and a tenth more for the
/// tens of microamperes that an early part draws; a Schottky 0.1 to 0.3 V.
Drop drop_of(Diode diode, double microamps);

/// Share of its charge, 0 to 1, that a cell has given when its voltage falls to `volts`: what a
/// part that needs so much can use of it. Typical shapes of discharge at microamperes, from memory:
/// estimates.
double usable_share(const Cell& cell, double volts);

}  // namespace rtcmend
