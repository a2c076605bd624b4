#include "clock_chip.h"

#include <algorithm>
#include <string_view>

namespace rtcmend::test {

namespace {

// An update takes 1984 us and is announced 244 us before it begins (DS12885).
constexpr double update_clocks = 1984 * 16, announced_clocks = (1984 + 244) * 16;

constexpr int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

bool is_time(std::uint8_t at) {
  return at <= 9 && at != 1 && at != 3 && at != 5;
}

}  // namespace

ClockChip::ClockChip(const ClockChipTraits& traits) : traits_(traits), random_(traits.seed) {
  put({0x00, 0x00, 0x30, 0x00, 0x09, 0x00, 0x04, 0x14, 0x05, 0x31, 0x26, 0x02, 0x00, 0x80});
  next_tick_ = period();
}

void ClockChip::put(const std::vector<std::uint8_t>& bytes) {
  std::copy(bytes.begin(), bytes.end(), bytes_.begin());
}

bool ClockChip::counts() const {
  return (bytes_[0x0A] & 0x70) == 0x20 && !traits_.oscillator_dead &&
         (powered_ || !traits_.oscillator_stops_off);
}

int ClockChip::value(std::uint8_t at) const {
  const int byte = bytes_[at];
  return (bytes_[0x0B] & 4) != 0 ? byte : (byte >> 4) * 10 + (byte & 15);
}

void ClockChip::set_value(std::uint8_t at, int value) {
  bytes_[at] =
      static_cast<std::uint8_t>((bytes_[0x0B] & 4) != 0 ? value : value / 10 * 16 + value % 10);
}

bool ClockChip::carry(std::uint8_t at, int first, int last) {
  const int now = value(at);
  set_value(at, now >= last ? first : now + 1);
  return now >= last;
}

void ClockChip::tick() {
  if (!carry(0, 0, 59) || !carry(2, 0, 59) || !carry(4, 0, 23)) return;
  carry(6, 1, 7);
  const int month = std::clamp(value(8), 1, 12);
  const int last = month == 2 && value(9) % 4 == 0 ? 29 : days[month - 1];
  if (carry(7, 1, last) && carry(8, 1, 12)) carry(9, 0, 99);
}

void ClockChip::advance(std::uint64_t now) {
  if (!counts()) {
    next_tick_ = std::max(next_tick_, static_cast<double>(now) + period() / 2);
    return;
  }
  for (; next_tick_ <= static_cast<double>(now); next_tick_ += period())
    if (!is_set()) tick();
}

bool ClockChip::updating(std::uint64_t now, double clocks) {
  return counts() && !is_set() && next_tick_ - static_cast<double>(now) <= clocks;
}

std::string_view ClockChip::read_warning(std::uint64_t now, std::uint8_t at) {
  advance(now);
  // Where a small chip shows its clock a second time, what is read is compared with nothing.
  if (is_time(at) && updating(now, update_clocks)) return "time read in an update";
  return {};
}

std::string_view ClockChip::write_warning(std::uint64_t now, std::uint8_t at) {
  advance(now);
  if (inside(at) == 0x0C || inside(at) == 0x0D) return "0Ch or 0Dh written";
  if (is_time(inside(at)) && !is_set()) return "time written without SET";
  return {};
}

std::uint8_t ClockChip::read(std::uint64_t now, std::uint8_t at) {
  advance(now);
  const std::uint8_t place = inside(at);
  std::uint8_t value = bytes_[place];
  if (place == 0x0A && (traits_.update_stuck || updating(now, announced_clocks))) value |= 0x80;
  if (place == 0x0C) bytes_[place] = 0;
  return value;
}

void ClockChip::write(std::uint64_t now, std::uint8_t at, std::uint8_t value) {
  advance(now);
  const std::uint8_t place = inside(at);
  if (place == 0x0C || place == 0x0D || place == traits_.stubborn) return;
  const bool counted = counts();
  if (place == 0x0A) value &= 0x7F;
  if (place == 0x00) value &= 0x7F;
  bytes_[place] = value;
  // The chain counts from its beginning when it is let go: half a second to the next update.
  if (place == 0x0A && !counted && counts()) next_tick_ = static_cast<double>(now) + period() / 2;
}

void ClockChip::forget(std::uint64_t now) {
  if (traits_.cell == Cell::dead) {
    for (std::size_t i = 0; i < traits_.size; ++i) bytes_[i] = static_cast<std::uint8_t>(random_());
    bytes_[0x0A] = 0x06;
    bytes_[0x0B] &= 0x06;
    bytes_[0x0C] = 0;
    bytes_[0x0D] = 0;
  }
  // Weak places give way after some seconds.
  if (traits_.cell == Cell::weak_bits && now - power_changed_ > 5 * clocks_per_second) {
    bytes_[0x15] ^= 0x10;
    bytes_[0x22] ^= 0x01;
  }
}

void ClockChip::power(std::uint64_t now, bool on) {
  if (on == powered_) return;
  if (on) {
    advance(now);
    forget(now);
  } else {
    advance(now);
  }
  powered_ = on;
  power_changed_ = now;
}

std::vector<std::uint8_t> ClockChip::bytes(std::uint64_t now) {
  advance(now);
  return {bytes_.begin(), bytes_.begin() + static_cast<std::ptrdiff_t>(traits_.size)};
}

}  // namespace rtcmend::test
