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
  double cell_microamps = 0.5;      ///< drawn from the cell with the oscillator running
  std::string cell_current_source;  ///< standing of that figure
  std::vector<Replacement> replaces;
  std::vector<std::string> notes;
  std::string source;  ///< where the facts are published, or their standing
};

/// Where parts that keep the century themselves have it (DS12885).
inline constexpr unsigned char part_century = 0x32;

}  // namespace rtcmend
