#include "bench.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace rtcmend::test {

namespace {

constexpr double nanoseconds_a_clock = 62.5;
/// The slower sheet of each row (DS1287; from memory), in nanoseconds. That of the chip's select
/// behind a strobe (tCH) and that of the data behind a write (tDHW) are 0: at its end both still
/// have to stand.
constexpr double address_strobe_width = 135, address_setup = 50, address_hold = 20,
                 strobe_to_address = 60, address_to_strobe = 60, select_setup = 25,
                 strobe_width = 325, strobe_gap = 325, data_delay = 240, data_release = 100,
                 data_setup = 200, cycle_time = 953;
/// A pin is read through a synchroniser of a clock and a half (ATmega328P).
constexpr double synchroniser = 94;
/// A chip answers 20 to 200 ms after its supply is good (DS12885, tRPU).
constexpr std::uint64_t start_up = clocks_per_second / 5;
/// The supply: a capacitor behind 10 ohm, and down through 4.7 kOhm, or through a pin of the board
/// that pulls it low.
constexpr double rise_ohms = 10, fall_ohms = 4700, pin_ohms = 25;
/// From 4.5 V to 4.0 V it takes 300 us or more, else the chip does not get its bytes behind its
/// lock in time (DS12885, tF).
constexpr double switch_over_from = 4500, switch_over_to = 4000, slowest_fall = 300e-6;
constexpr int enough_violations = 20;

constexpr int port_pin(int line) {
  constexpr int pins[] = {0, 1, 2, 3, 4, 5, 6, 7, 2, 3, 0, 4};
  return pins[line];
}

constexpr char port_of(int line) {
  if (line == cs) return 'C';
  return line >= 2 && line <= ad7 ? 'D' : 'B';
}

double passed(std::uint64_t from, std::uint64_t to) {
  return static_cast<double>(to - from) * nanoseconds_a_clock;
}

}  // namespace

Bench::Bench(const ClockChipTraits& traits, const BenchFaults& wrong)
    : chip(traits), faults(wrong) {}

void Bench::blame(std::uint64_t now, const std::string& what) {
  if (violations_.size() < enough_violations)
    violations_.push_back(fmt::format("{:.4f} ms: {}", passed(0, now) / 1e6, what));
}

Bench::Drive Bench::board_drive(int line) const {
  const char port = port_of(line);
  const auto level = port == 'B' ? pins_.port_b : port == 'C' ? pins_.port_c : pins_.port_d;
  const auto out = port == 'B'   ? pins_.direction_b
                   : port == 'C' ? pins_.direction_c
                                 : pins_.direction_d;
  const int bit = 1 << port_pin(line);
  if ((out & bit) != 0) return (level & bit) != 0 ? Drive::high : Drive::low;
  return (level & bit) != 0 ? Drive::weak_high : Drive::none;
}

double Bench::fall() const {
  const double ohms = sense_pulls_ ? pin_ohms * fall_ohms / (pin_ohms + fall_ohms) : fall_ohms;
  return ohms * faults.microfarads * 1e-6;
}

int Bench::chip_millivolts(std::uint64_t now) const {
  const double seconds = passed(supply_changed_, now) * 1e-9;
  double volts = 0;
  if (gate_on_) {
    const double most = faults.reversed ? 800 : faults.rail_millivolts;
    const double rise = rise_ohms * faults.microfarads * 1e-6;
    volts = most + (millivolts_at_change_ - most) * std::exp(-seconds / rise);
  } else {
    volts = millivolts_at_change_ * std::exp(-seconds / fall());
  }
  return std::max(static_cast<int>(volts), faults.fed_millivolts);
}

bool Bench::chip_drives(std::uint64_t now) const {
  return reading_ || now < chip_drives_until_;
}

bool Bench::resolve(std::uint64_t now, int line) const {
  std::set<int> group{line};
  for (std::size_t i = 0; i < faults.touching.size(); ++i)
    for (const auto& [one, other] : faults.touching)
      if (group.contains(one) || group.contains(other)) group.insert({one, other});
  bool low = false, high = false, pulled_up = false, pulled_down = false, weak = false;
  for (const int member : group) {
    low = low || drive_[member] == Drive::low || faults.grounded.contains(member);
    high = high || drive_[member] == Drive::high || faults.to_plus.contains(member);
    if (member <= ad7 && reaches(member) && chip_drives(now))
      ((output_ >> member & 1) != 0 ? high : low) = true;
    pulled_down = pulled_down || member == as;
    pulled_up = pulled_up || (member > as && gate_on_);
    weak = weak || drive_[member] == Drive::weak_high;
  }
  if (low || high) return !low;
  if (pulled_down) return false;
  if (pulled_up || weak) return true;
  return line > as ? false : level_[line];  // what nobody drives keeps its charge
}

std::uint8_t Bench::bus() const {
  int value = 0;
  for (int line = ad0; line <= ad7; ++line)
    if (reaches(line) && level_[line]) value |= 1 << line;
  return static_cast<std::uint8_t>(value);
}

void Bench::pins(std::uint64_t now, const Pins& pins) {
  const Pins before = pins_;
  pins_ = pins;
  for (int line = 0; line < line_count; ++line) {
    const Drive drive = board_drive(line);
    if (drive == drive_[line]) continue;
    drive_[line] = drive;
    driven_since_[line] = now;
    check_hold(now, line);
  }
  check_supply(now, before);
  check_drives(now);
  settle(now);
}

void Bench::check_supply(std::uint64_t now, const Pins& before) {
  constexpr int gate = 1 << 1, sense = 1 << 5;
  const auto low = [](const Pins& pins, int pin) {
    return (pins.direction_c & pin) != 0 && (pins.port_c & pin) == 0;
  };
  if ((pins_.port_c & sense) != 0) blame(now, "the sense pin feeds the chip");
  if (low(pins_, gate) == low(before, gate) && low(pins_, sense) == low(before, sense)) return;
  const int volts = chip_millivolts(now);
  sense_pulls_ = low(pins_, sense);
  switch_gate(now, low(pins_, gate));
  supply_changed_ = now;
  millivolts_at_change_ = volts;
  if (!gate_on_ && volts > switch_over_to &&
      fall() * std::log(switch_over_from / switch_over_to) < slowest_fall)
    blame(now, "the supply falls too fast");
}

void Bench::switch_gate(std::uint64_t now, bool on) {
  if (on == gate_on_) return;
  if (gate_on_ && (!level_[cs] || !level_[rd] || !level_[wr]))
    blame(now, "power off during an access");
  gate_on_ = on;
  gate_changed_ = now;
  if (faults.fitted && !faults.reversed) chip.power(now, on);
}

void Bench::check_drives(std::uint64_t now) {
  const bool up = gate_on_ && chip_millivolts(now) * 10 >= faults.rail_millivolts * 9;
  for (int line = 0; line < line_count; ++line) {
    if (!up && (drive_[line] == Drive::high || drive_[line] == Drive::weak_high))
      blame(now, fmt::format("line {} high without supply", line));
    if (line > as && gate_on_ && now - gate_changed_ < start_up && drive_[line] == Drive::low)
      blame(now, fmt::format("line {} low while the supply comes up", line));
    if (line <= ad7 && faults.fitted && chip_drives(now) && strongly_driven(line))
      blame(now, fmt::format("line {} driven by both sides", line));
  }
}

void Bench::check_hold(std::uint64_t now, int line) {
  if (line <= ad7 && latched_ && passed(address_strobe_ended_, now) < address_hold)
    blame(now, fmt::format("address line {} not held", line));
}

void Bench::settle(std::uint64_t now) {
  before_ = level_;
  for (int line = 0; line < line_count; ++line) {
    const bool level = resolve(now, line);
    if (level == level_[line]) continue;
    level_[line] = level;
    changed_[line] = now;
    driven_since_[line] = now;
  }
  if (gate_on_ && faults.fitted && !faults.reversed) edges(now);
}

void Bench::edges(std::uint64_t now) {
  const auto fell = [&](int line) { return reaches(line) && before_[line] && !level_[line]; };
  const auto rose = [&](int line) { return reaches(line) && !before_[line] && level_[line]; };
  for (const int strobe : {int{rd}, int{wr}})
    if (rose(strobe) && now != gate_changed_) strobe_rises(now, strobe);
  if ((fell(cs) || rose(cs)) && now != gate_changed_) select_edge(now);
  if (fell(as) || rose(as)) address_edge(now);
  for (const int strobe : {int{rd}, int{wr}})
    if (fell(strobe)) strobe_falls(now, strobe);
}

void Bench::check_access(std::uint64_t now) {
  if (now - gate_changed_ < start_up) blame(now, "access before the chip answers");
}

void Bench::address_edge(std::uint64_t now) {
  if (level_[as]) {
    if (!level_[rd] || !level_[wr]) blame(now, "AS in a strobe");
    if (passed(strobe_ended_, now) < strobe_to_address) blame(now, "AS soon behind a strobe");
    address_strobe_began_ = now;
    return;
  }
  if (passed(address_strobe_began_, now) < address_strobe_width) blame(now, "AS too short");
  check_access(now);
  address_strobe_ended_ = now;
  latched_ = true;
  for (int line = ad0; line <= ad7; ++line) {
    if (!strongly_driven(line)) blame(now, fmt::format("address line {} not driven", line));
    const std::uint64_t since = std::max(driven_since_[line], changed_[line]);
    if (since == now)  // moves together with the strobe: what stood before it counts no more
      check_hold(now, line);
    else if (passed(since, now) < address_setup)
      blame(now, fmt::format("address line {} late", line));
  }
  address_ = bus() & 0x7F;
}

void Bench::select_edge(std::uint64_t now) {
  if (!level_[rd] || !level_[wr]) blame(now, "CS moved in a strobe");
}

void Bench::strobe_falls(std::uint64_t now, int strobe) {
  selected_at_strobe_ = reaches(cs) && !level_[cs];
  if (!level_[rd] && !level_[wr]) blame(now, "RD with WR");
  if (!selected_at_strobe_) return;
  check_access(now);
  ++accesses_;
  if (level_[as]) blame(now, "a strobe under AS");
  if (passed(changed_[as], now) < address_to_strobe) blame(now, "a strobe soon behind AS");
  if (passed(changed_[cs], now) < select_setup) blame(now, "CS late");
  if (passed(last_strobe_, now) < cycle_time) blame(now, "cycle too short");
  if (passed(strobe_ended_, now) < strobe_gap) blame(now, "strobe soon behind a strobe");
  last_strobe_ = now;
  if (strobe != rd) return;
  if (const auto warning = chip.read_warning(now, address_); !warning.empty())
    blame(now, std::string(warning));
  output_ = chip.read(now, address_);
  reading_ = true;
  chip_drives_from_ = now;
  check_drives(now);
  const auto kept = before_;
  settle(now);
  before_ = kept;
}

void Bench::strobe_rises(std::uint64_t now, int strobe) {
  if (!selected_at_strobe_) return;
  selected_at_strobe_ = false;
  if (passed(last_strobe_, now) < strobe_width) blame(now, "strobe too short");
  if (level_[cs]) blame(now, "CS not held to the strobe's end");
  strobe_ended_ = now;
  if (strobe == rd) {
    reading_ = false;
    chip_drives_until_ = now + static_cast<std::uint64_t>(data_release / nanoseconds_a_clock) + 1;
    return;
  }
  for (int line = ad0; line <= ad7; ++line) {
    if (!strongly_driven(line)) blame(now, fmt::format("data line {} not driven", line));
    if (passed(std::max(driven_since_[line], changed_[line]), now) < data_setup)
      blame(now, fmt::format("data line {} late", line));
  }
  if (const auto warning = chip.write_warning(now, address_); !warning.empty())
    blame(now, std::string(warning));
  chip.write(now, address_, bus());
}

std::uint8_t Bench::read(std::uint64_t now, char port) {
  if (reading_ && port != 'C' && passed(chip_drives_from_, now) < data_delay + synchroniser)
    blame(now, "sampled before the data is valid");
  int value = port == 'D' ? 0x01 : 0x00;
  for (int line = 0; line < line_count; ++line)
    if (port_of(line) == port && level_[line]) value |= 1 << port_pin(line);
  return static_cast<std::uint8_t>(value);
}

void Bench::finish(std::uint64_t now) {
  check_drives(now);
}

}  // namespace rtcmend::test
