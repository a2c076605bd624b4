#include "upkeep/cell.h"

#include <array>
#include <cctype>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"

namespace rtcmend {

namespace {

// LiCoin: about 1 % a year at room temperature; a shelf life of ten years is what makers promise.
constexpr double lithium_self_discharge = 0.01;
constexpr double lithium_shelf_years = 10;

const std::array<Cell, 3>& cells() {
  static const std::array<Cell, 3> known = {{
      {"2032", 225, 3.0, 2.0, lithium_self_discharge, lithium_shelf_years, -20, 70,
       "IEC60086 (designation), LiCoin"},
      {"1225", 48, 3.0, 2.0, lithium_self_discharge, lithium_shelf_years, -20, 70, "from memory"},
      {"1220", 35, 3.0, 2.0, lithium_self_discharge, lithium_shelf_years, -20, 70, "from memory"},
  }};
  return known;
}

}  // namespace

std::span<const Cell> known_cells() {
  return cells();
}

Cell cell_named(std::string_view designation) {
  std::string_view digits = designation;
  while (!digits.empty() && std::isalpha(static_cast<unsigned char>(digits.front())) != 0)
    digits.remove_prefix(1);
  std::vector<std::string> names;
  for (const Cell& cell : cells()) {
    if (cell.designation == digits) return cell;
    names.push_back(cell.designation);
  }
  refuse("--cell", fmt::format("\"{}\" is not a cell that rtcmend knows", printable(designation)),
         fmt::format("known: {}; or give --capacity in mAh", join(names, ", ")));
}

Cell cell_of_capacity(double mah) {
  // The comparison is written so that NaN fails it too.
  if (!(mah >= 1 && mah <= 10'000))
    refuse("--capacity", "a cell's capacity lies between 1 and 10,000 mAh",
           "coin cells print 35 to 1,000 mAh in their data sheets");
  Cell cell = cell_named("2032");
  cell.designation = fmt::format("{:g} mAh", mah);
  cell.capacity_mah = mah;
  cell.source = "capacity as given; the rest as for a lithium coin cell (LiCoin)";
  return cell;
}

Diode diode_named(std::string_view name) {
  if (name == "none") return Diode::none;
  if (name == "silicon") return Diode::silicon;
  if (name == "schottky") return Diode::schottky;
  refuse("--diode", fmt::format("\"{}\" is not a kind of diode", printable(name)),
         "none, silicon or schottky");
}

Drop drop_of(Diode diode) {
  switch (diode) {
    case Diode::silicon:
      return {0.3, 0.4};
    case Diode::schottky:
      return {0.1, 0.3};
    case Diode::none:
      break;
  }
  return {};
}

}  // namespace rtcmend
