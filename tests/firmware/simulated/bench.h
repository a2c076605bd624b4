#pragma once

#include <array>
#include <cstdint>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "clock_chip.h"

namespace rtcmend::test {

/// The board's three ports as the firmware has set them.
struct Pins {
  std::uint8_t port_b = 0, direction_b = 0, port_c = 0, direction_c = 0, port_d = 0,
               direction_d = 0;
};

/// Lines between board and chip, numbered as the wire test's answer numbers them.
enum Line { ad0 = 0, ad7 = 7, as = 8, rd = 9, cs = 10, wr = 11, line_count = 12 };

/// What is on the bench, and what is wrong with it.
struct BenchFaults {
  bool fitted = true;
  bool reversed = false;                      ///< the chip shorts the supply
  int rail_millivolts = 5000;                 ///< the board's own supply
  int fed_millivolts = 0;                     ///< the chip's supply, fed from elsewhere
  double microfarads = 10;                    ///< at the chip's supply
  std::set<int> open;                         ///< lines that do not reach the chip
  std::vector<std::pair<int, int>> touching;  ///< pairs of lines
  std::set<int> grounded;                     ///< lines that touch ground
  std::set<int> to_plus;                      ///< lines that touch the supply
};

/// The wires, the supply and the chip at the end of them, watched: whatever the data sheets do not
/// allow is written down in violations(). Times are clocks of 62.5 ns.
class Bench {
 public:
  explicit Bench(const ClockChipTraits& chip = {}, const BenchFaults& faults = {});

  ClockChip chip;
  BenchFaults faults;

  /// The firmware has changed its pins.
  void pins(std::uint64_t now, const Pins& pins);
  /// What the board reads on the pins of a port: 'B', 'C' or 'D'.
  std::uint8_t read(std::uint64_t now, char port);
  /// The chip's supply as the converter sees it.
  int chip_millivolts(std::uint64_t now) const;
  /// To be called at the end of a test: lines that stayed high without supply show by time alone.
  void finish(std::uint64_t now);

  bool has_supply() const { return gate_on_; }
  const std::vector<std::string>& violations() const { return violations_; }
  /// Strobes of either kind that reached a selected chip.
  std::size_t accesses() const { return accesses_; }

 private:
  enum class Drive { none, low, high, weak_high };

  void blame(std::uint64_t now, const std::string& what);
  Drive board_drive(int line) const;
  bool strongly_driven(int line) const {
    return drive_[line] == Drive::low || drive_[line] == Drive::high;
  }
  bool reaches(int line) const { return !faults.open.contains(line); }
  bool resolve(std::uint64_t now, int line) const;
  bool chip_drives(std::uint64_t now) const;
  void settle(std::uint64_t now);
  void check_drives(std::uint64_t now);
  void check_supply(std::uint64_t now, const Pins& before);
  void switch_gate(std::uint64_t now, bool on);
  /// The supply's time constant when the gate is off, in seconds.
  double fall() const;
  void check_hold(std::uint64_t now, int line);
  void edges(std::uint64_t now);
  void address_edge(std::uint64_t now);
  void select_edge(std::uint64_t now);
  void strobe_falls(std::uint64_t now, int strobe);
  void strobe_rises(std::uint64_t now, int strobe);
  void check_access(std::uint64_t now);
  std::uint8_t bus() const;

  Pins pins_;
  std::array<Drive, line_count> drive_{};
  std::array<bool, line_count> level_{}, before_{};
  std::array<std::uint64_t, line_count> changed_{}, driven_since_{};
  bool gate_on_ = false;
  bool sense_pulls_ = false;  ///< the board's pin at the chip's supply is an output, and low
  std::uint64_t gate_changed_ = 0, supply_changed_ = 0;
  int millivolts_at_change_ = 0;
  std::uint8_t address_ = 0, output_ = 0;
  std::uint64_t chip_drives_from_ = 0, chip_drives_until_ = 0, last_strobe_ = 0, strobe_ended_ = 0,
                address_strobe_began_ = 0, address_strobe_ended_ = 0;
  bool latched_ = false;  ///< an address was, since the beginning
  bool reading_ = false, selected_at_strobe_ = false;
  std::size_t accesses_ = 0;
  std::vector<std::string> violations_;
};

}  // namespace rtcmend::test
