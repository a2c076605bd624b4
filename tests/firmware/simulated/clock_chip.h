#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <random>
#include <vector>

namespace rtcmend::test {

/// Clocks of the board a second, the time base of everything simulated.
inline constexpr std::uint64_t clocks_per_second = 16'000'000;

/// How the cell stands.
enum class Cell { sound, dead, weak_bits };

/// What kind of chip it is, and what is wrong with it.
struct ClockChipTraits {
  std::size_t size = 128;
  Cell cell = Cell::sound;
  bool oscillator_dead = false;          ///< never counts, whatever the registers say
  bool oscillator_stops_off = false;     ///< counts only under power
  bool update_stuck = false;             ///< UIP reads 1
  double ppm = 0;                        ///< how fast its crystal runs
  std::optional<std::uint8_t> stubborn;  ///< an address that keeps its byte
  unsigned seed = 1;                     ///< of what it forgets
};

/// A clock chip of the 146818 family as its data sheets tell it (MC146818A, DS12885), by itself:
/// the bytes, the clock, the cell. It knows nothing of wires.
class ClockChip {
 public:
  explicit ClockChip(const ClockChipTraits& traits);

  /// Something is read or written that the sheets warn of; empty = nothing.
  std::string_view read_warning(std::uint64_t now, std::uint8_t at);
  std::string_view write_warning(std::uint64_t now, std::uint8_t at);
  std::uint8_t read(std::uint64_t now, std::uint8_t at);
  void write(std::uint64_t now, std::uint8_t at, std::uint8_t value);
  /// The supply came or went.
  void power(std::uint64_t now, bool on);

  /// Its bytes at this moment, without side effects.
  std::vector<std::uint8_t> bytes(std::uint64_t now);
  void put(std::uint8_t at, std::uint8_t value) { bytes_[at] = value; }
  void put(const std::vector<std::uint8_t>& bytes);
  std::size_t size() const { return traits_.size; }
  ClockChipTraits& traits() { return traits_; }

 private:
  std::uint8_t inside(std::uint8_t at) const {
    return static_cast<std::uint8_t>(at & (traits_.size - 1));
  }
  bool counts() const;
  bool is_set() const { return (bytes_[0x0B] & 0x80) != 0; }
  double period() const { return clocks_per_second / (1 + traits_.ppm * 1e-6); }
  void advance(std::uint64_t now);
  void tick();
  bool carry(std::uint8_t at, int first, int last);
  int value(std::uint8_t at) const;
  void set_value(std::uint8_t at, int value);
  /// Clocks to the end of the next update; nothing when none will come.
  std::optional<double> to_update(std::uint64_t now);
  bool updating(std::uint64_t now, double clocks);
  void forget(std::uint64_t now);

  ClockChipTraits traits_;
  std::array<std::uint8_t, 128> bytes_{};
  double next_tick_ = 0;
  bool powered_ = false;
  std::uint64_t power_changed_ = 0;
  std::mt19937 random_;
};

}  // namespace rtcmend::test
