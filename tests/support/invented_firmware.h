#pragma once

#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "base/image.h"

namespace rtcmend::test {

/// Random numbers that are the same on every machine (the distributions of <random> are not).
class Dice {
 public:
  explicit Dice(std::uint32_t start) : engine_(start) {}
  /// 0 to count - 1.
  std::uint32_t below(std::uint32_t count) {
    return static_cast<std::uint32_t>(engine_() >> 3) % count;
  }
  std::uint8_t byte() { return static_cast<std::uint8_t>(engine_() >> 7); }
  bool coin() { return (engine_() >> 9 & 1U) != 0; }

 private:
  std::mt19937 engine_;
};

/// One bit of the chip.
struct BitAt {
  Address at = 0;
  std::uint8_t bit = 0;

  friend auto operator<=>(const BitAt&, const BitAt&) = default;
};

/// A setting as its setup screen offers it, and how it is stored.
struct Knob {
  std::string name;
  std::vector<std::string> values;   ///< the words on the screen
  std::vector<std::uint32_t> codes;  ///< what each is stored as
  std::vector<BitAt> bits;           ///< most significant first, wherever they stand
  std::vector<BitAt> second_copy;    ///< the same code once more; may be empty
};

/// While one setting has a value, another is stored as something else than the screen says.
struct Drag {
  std::size_t knob = 0, value = 0, moves = 0, to = 0;
};

/// A number that follows from settings: how many of them are not stored as 0.
struct Tally {
  std::vector<std::size_t> knobs;
  std::vector<BitAt> bits;  ///< most significant first
};

/// How the firmware guards its bytes.
struct Guard {
  enum class Kind { sum_16, negated_sum_16, xor_8, balance_8, crc_16 };
  Kind kind = Kind::sum_16;
  std::uint16_t start = 0;
  std::uint16_t poly = 0x1021;
  Range over;
  Address at = 0;  ///< two bytes, high byte first, for the 16-bit kinds
};

/// A firmware that no machine ever had: what it keeps where, and what it does at each start.
struct InventedFirmware {
  std::size_t size = 64;
  std::vector<std::uint8_t> blank;  ///< all bytes before anything is stored
  std::vector<Knob> knobs;
  std::vector<Drag> drags;
  std::vector<Tally> tallies;
  std::vector<Address> counters;  ///< low byte of a 16-bit number of starts, its high byte behind
  std::vector<Address> restless;  ///< something new at each start
  Guard guard;
};

/// A random one. Settings of two to five values, numbers of up to 16 bits, some in several bytes.
InventedFirmware invent_firmware(Dice& dice);

/// The one that docs/unknown-machine.md works through.
InventedFirmware workbench_firmware();

/// A machine with such a firmware: set something, start it, dump it.
class InventedMachine {
 public:
  InventedMachine(InventedFirmware firmware, std::uint32_t start);

  const InventedFirmware& firmware() const { return firmware_; }
  /// The value each setting had when the machine was new: the first.
  void reset() { chosen_.assign(firmware_.knobs.size(), 0); }
  void set(std::size_t knob, std::size_t value) { chosen_[knob] = value; }
  /// Switches the machine off and on, and reads the chip.
  Image start_and_dump();

 private:
  InventedFirmware firmware_;
  Dice dice_;
  std::vector<std::size_t> chosen_;
  std::vector<std::uint16_t> starts_;
  std::uint32_t minutes_ = 0;
};

}  // namespace rtcmend::test
