#pragma once

#include <optional>
#include <string>
#include <vector>

#include "support/invented_firmware.h"
#include "support/unknown_guard.h"

namespace rtcmend::test {

/// A firmware that nobody documented, drawn at random to see what is claimed about it. The shares
/// are written down in docs/figures.md ("Discovery") and stand in unknown_firmware.cpp.
struct UnknownFirmware {
  UnknownGuard guard;
  std::optional<Check> second;  ///< a sum of the upper half of a large chip
  std::size_t size = Image::small_size;
  std::vector<std::uint8_t> blank;  ///< what stays
  struct Setting {
    std::string name;
    Address at = 0;
    unsigned shift = 0;
    std::vector<std::uint8_t> codes;  ///< the first is where it rests
    std::uint8_t mask = 0xFF;         ///< of the bits, shifted
  };
  std::vector<Setting> settings;
  std::vector<Address> counters;  ///< go up by `strides` at each start
  std::vector<std::uint8_t> strides;
  std::optional<Address> carry;     ///< the high byte of the first counter
  bool is_started_between = false;  ///< some dumps lie two or three starts apart
  std::vector<Address> noise;       ///< one random value, in one place or in two
  std::optional<Address> tally;     ///< counts the first two settings that are not stored as 0
  /// The code of a setting once more, all its bits turned over, elsewhere.
  struct Mirror {
    std::size_t setting = 0;
    Address at = 0;
  };
  std::optional<Mirror> mirror;
  /// While setting `by` has `value`, setting `forced` is stored as its code number `to`.
  struct Force {
    std::size_t by = 0, value = 0, forced = 0, to = 0;
  };
  std::optional<Force> force;
};

UnknownFirmware draw_firmware(Dice& dice);

/// The machine with that firmware.
class UnknownMachine {
 public:
  UnknownMachine(UnknownFirmware firmware, std::uint32_t start);
  const UnknownFirmware& firmware() const { return firmware_; }
  /// A start with these values, by setting.
  Image start(const std::vector<std::size_t>& values);
  /// A start with random values.
  Image start_anyhow();
  std::vector<std::size_t> rest() const {
    return std::vector<std::size_t>(firmware_.settings.size(), 0);
  }
  /// Whether its own firmware would take the image: the check, the count and the mirrored code are
  /// what it would have stored itself, and so is what one setting forces on another.
  bool accepts(const Image& image) const;

 private:
  void store(const std::vector<std::uint8_t>& codes, std::vector<std::uint8_t>& bytes) const;
  void protect(std::vector<std::uint8_t>& bytes) const;
  void tick(std::vector<std::uint8_t>& bytes);
  void count(std::vector<std::uint8_t>& bytes);

  UnknownFirmware firmware_;
  Dice dice_;
  std::vector<unsigned> counts_;
  unsigned minutes_ = 9 * 60;  ///< of the day
};

}  // namespace rtcmend::test
