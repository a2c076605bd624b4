#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/advice.h"
#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// What became of a chip that was written, left without power and read again.
enum class Retained {
  everything,        ///< it holds
  nothing,           ///< noise: no cell, a reversed or a flat one
  cleared,           ///< the RAM at ones and the clock kept: the RAM-clear pin
  a_few_bits_lost,   ///< a marginal chip or a low cell
  much_lost,         ///< more than a few bits, less than all
  clock_lost,        ///< the RAM kept, the clock alone lost or stopped
  firmware_rewrote,  ///< the checks hold again over other bytes
  changes_by_read    ///< two reads of the same chip differ: bus or address
};

/// A bit of the RAM that was not kept; never one of a password's byte.
struct LostBit {
  Address at = 0;
  int bit = 0;          ///< 7 to 0
  bool wanted = false;  ///< what it was
};

/// What the clock did meanwhile.
enum class ClockKept {
  unknown,      ///< its bytes are not known on both sides
  kept,         ///< it went on
  stood_still,  ///< no further than when it was written, or by less than the time without power
  lost,         ///< a date that cannot be, or an earlier one
  off,          ///< the divider bits or SET hold it
};

struct Retention {
  Retained what = Retained::everything;
  std::string text;           ///< in plain words
  Advice next;                ///< the next measurement to make
  std::vector<LostBit> bits;  ///< for a_few_bits_lost
  Addresses changed;          ///< RAM bytes that are not what was written
  Addresses hidden;           ///< those among them that are a password's: told by address alone
  ClockKept clock = ClockKept::unknown;
  std::string clock_text;  ///< what the clock did; empty when it was kept or is unknown
  bool cell_low = false;   ///< VRT (0Dh bit 7) reads 0
};

/// What was written, what was found, and how long the power was off.
struct PowerOff {
  Image wanted, found;
  std::optional<Image> again;  ///< the same chip read once more
  long long seconds = 0;
  /// How much more may lie between the two readings: a person's way to the machine and back.
  long long slack = 60;
};

/// Refuses (Error) images whose sizes differ from the layout's.
Retention retention(const PowerOff& test, const Layout& layout);

}  // namespace rtcmend
