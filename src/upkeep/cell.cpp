#include "upkeep/cell.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"

namespace rtcmend {

namespace {

// LiCoin: about 1 % a year at room temperature; a shelf life of ten years is what makers promise.
constexpr double lithium_self_discharge = 0.01;
constexpr double lithium_shelf_years = 10;

constexpr double coldest = -20, hottest = 70;  // LiCoin

Cell lithium_coin(const char* designation, double mah, const char* source) {
  return {designation,         mah,     3.0,     2.0,    lithium_self_discharge,
          lithium_shelf_years, coldest, hottest, source, Chemistry::lithium_coin};
}

// The packs of boards whose part has no input for a cell. A nickel pack loses about a fifth of its
// charge a month (from memory).
constexpr double nickel_self_discharge = 12 * 0.2;

const std::array<Cell, 11>& cells() {
  static const std::array<Cell, 11> known = {{
      lithium_coin("2032", 225, "IEC60086 (designation), LiCoin"),
      lithium_coin("2025", 160, "from memory"),
      lithium_coin("2016", 90, "from memory"),
      lithium_coin("2450", 620, "from memory"),
      lithium_coin("1225", 48, "from memory"),
      lithium_coin("1220", 35, "from memory"),
      {"ER14250", 1200, 3.6, 2.0, 0.01, 10, -55, 85, "from memory", Chemistry::lithium_thionyl},
      {"LR44", 110, 1.5, 0.9, 0.03, 5, -10, 60, "from memory", Chemistry::alkaline},
      {"3.6V-NICKEL", 60, 3.6, 3.0, nickel_self_discharge, 5, 0, 45, "from memory",
       Chemistry::nickel},
      {"4.5V-ALKALINE", 2000, 4.5, 2.7, 0.03, 5, -18, 55, "from memory: three AA cells",
       Chemistry::alkaline},
      {"6V-LITHIUM", 1000, 6.0, 4.0, 0.01, 10, coldest, hottest, "from memory",
       Chemistry::lithium_coin},
  }};
  return known;
}

// Labels of one kind of cell differ by so much at most: 3.0 to 3.2 V for lithium coins, 3.6 to 3.7
// V for thionyl chloride (from memory).
constexpr double widest_label = 0.1;

/// "cr 2032" as the list has it: "CR2032".
std::string as_listed(std::string_view name) {
  std::string plain;
  for (const char c : name)
    if (c != ' ' && c != '-')
      plain += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return plain;
}

/// Letters of the IEC and of the trade for a lithium coin cell that is not rechargeable.
std::string without_coin_letters(const std::string& name) {
  for (const std::string_view letters : {"ECR", "CR", "DL"})
    if (name.starts_with(letters)) return name.substr(letters.size());
  return name;
}

void refuse_rechargeable(const std::string& name) {
  for (const std::string_view letters : {"LIR", "ML", "VL"})
    if (name.starts_with(letters))
      refuse_choice(
          "cell", fmt::format("\"{}\" is a rechargeable cell", printable(name)),
          "a board that charges its cell needs one, a clock chip alone does not: the plain "
          "lithium cell of that size has the letters CR");
}

}  // namespace

std::span<const Cell> known_cells() {
  return cells();
}

Cell cell_named(std::string_view designation) {
  const std::string name = as_listed(designation);
  refuse_rechargeable(name);
  const std::string plain = without_coin_letters(name);
  std::vector<std::string> names;
  for (const Cell& cell : cells()) {
    if (as_listed(cell.designation) == plain) return cell;
    names.push_back(cell.designation);
  }
  const auto near = nearest(plain, names);
  refuse_choice("cell",
                fmt::format("\"{}\" is not a cell that rtcmend knows", printable(designation)),
                near.empty() ? fmt::format("known: {}; or its capacity in mAh", join(names, ", "))
                             : fmt::format("{}; or its capacity in mAh", join(near, " or ")));
}

Cell usual_cell(Between between) {
  return cell_named(between == Between::nothing ? "2032" : "4.5V-ALKALINE");
}

Cell cell_of_capacity(double mah) {
  // The comparison is written so that NaN fails it too.
  if (!(mah >= 1 && mah <= 10'000))
    refuse_choice("capacity", "a cell's capacity lies between 1 and 10,000 mAh",
                  "coin cells print 35 to 1,000 mAh in their data sheets");
  Cell cell = usual_cell();
  cell.designation = fmt::format("{:g} mAh", mah);
  cell.capacity_mah = mah;
  cell.source = "capacity as given; the rest as for a lithium coin cell (LiCoin)";
  return cell;
}

namespace {

/// The known cells that come nearest to so many volts, each with its own.
std::string cells_of(double volts) {
  double nearest = 1e9;
  for (const Cell& cell : cells())
    nearest = std::min(nearest, std::abs(cell.nominal_volts - volts));
  std::vector<std::string> names;
  for (const Cell& cell : cells())
    if (std::abs(cell.nominal_volts - volts) == nearest)
      names.push_back(fmt::format("{} ({:g} V{})", cell.designation, cell.nominal_volts,
                                  cell.rechargeable() ? ", where the board charges it" : ""));
  return join(names, " or ");
}

}  // namespace

Cell with_volts(Cell cell, double volts) {
  if (!(volts >= 0.5 && volts <= 10))
    refuse_choice("volts", "a cell for a clock chip has 0.5 to 10 V",
                  "a lithium coin cell has 3 V");
  if (volts == cell.nominal_volts) return cell;
  if (std::abs(volts - cell.nominal_volts) > cell.nominal_volts * widest_label)
    refuse_choice(
        "volts",
        fmt::format("{} has {:g} V, not {:g}", cell.designation, cell.nominal_volts, volts),
        "the cell itself: " + cells_of(volts));
  cell.end_volts *= volts / cell.nominal_volts;
  cell.nominal_volts = volts;
  cell.source += "; volts as given, its end point in proportion (from memory)";
  return cell;
}

Diode diode_named(std::string_view name) {
  if (name == "none") return Diode::none;
  if (name == "silicon") return Diode::silicon;
  if (name == "schottky") return Diode::schottky;
  refuse_choice("diode", fmt::format("\"{}\" is not a kind of diode", printable(name)),
                "none, silicon or schottky");
}

Drop drop_of(Diode diode, double microamps) {
  switch (diode) {
    case Diode::silicon:
      return microamps <= 1 ? Drop{0.3, 0.4} : Drop{0.4, 0.5};
    case Diode::schottky:
      return {0.1, 0.3};
    case Diode::none:
      break;
  }
  return {};
}

}  // namespace rtcmend
