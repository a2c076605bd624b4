#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace rtcmend {

/// How a part is built.
enum class Package {
  bare,    ///< crystal and cell stand outside
  potted,  ///< crystal and cell cast into the part
  module   ///< a small board with crystal and cell
};

/// Where its cell is.
enum class CellPlace { outside, built_in, rechargeable };

/// What a pin of a part is for.
struct Pin {
  std::string pin;  ///< "4-11"
  std::string what;
};

/// What must stand between cell and chip.
enum class Between {
  nothing,            ///< the part switches over by itself
  diode_and_resistor  ///< it does not: the board keeps its +5 V from the cell
};

/// How a part is fed from a cell.
struct CellInput {
  std::string plus, minus;                 ///< pins
  double least_volts = 0, most_volts = 0;  ///< at these pins
  Between between = Between::nothing;
  std::string source;  ///< where it is published, or its standing
};

/// A part whose place another one takes.
struct Replacement {
  std::string part;     ///< the part that is replaced
  std::string changes;  ///< what is then different
  std::string source;
};

/// A clock chip by its trade number.
struct Part {
  std::string name;       ///< "DS12887A"
  int ram_bytes = 0;      ///< 50, 113 or 114: without the clock bytes, and without a century byte
  std::size_t size = 64;  ///< bytes with the clock: 64 or 128
  Package package = Package::bare;
  CellPlace cell = CellPlace::outside;
  bool keeps_century = false;        ///< counts the century at 32h itself
  bool ram_clear = false;            ///< has an input that sets every RAM byte to FFh
  std::optional<int> ram_clear_pin;  ///< nothing where it depends on the package
  bool ships_stopped = false;        ///< a new one has its oscillator off
  bool trickle_charger = false;
  std::vector<Pin> pins;  ///< none where they are not known; the RAM-clear pin among them
  std::string pins_source;
  std::optional<CellInput> cell_input;   ///< nothing where it is not known
  bool vrt_set_by_reading = false;       ///< reading 0Dh sets its bit 7
  std::vector<int> running_dividers{2};  ///< values of 0Ah bits 6-4 with which it counts
  std::string daylight_saving;           ///< when DSE takes an hour in spring; empty = not known
  std::string daylight_source;
  double cell_microamps = 0.5;      ///< drawn from the cell with the oscillator running
  std::string cell_current_source;  ///< standing of that figure
  std::vector<Replacement> replaces;
  std::vector<std::string> notes;
  std::string source;  ///< where the facts are published, or their standing
};

/// Where parts that keep the century themselves have it (DS12885).
inline constexpr unsigned char part_century = 0x32;

}  // namespace rtcmend
