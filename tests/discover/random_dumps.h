#pragma once

#include <cstdint>
#include <random>
#include <vector>

#include "discover/evidence.h"

namespace rtcmend::test {

/// Random numbers that are the same on every machine (the distributions of <random> are not).
class Dice {
 public:
  explicit Dice(std::uint32_t start) : engine_(start) {}
  /// 0 to count - 1.
  std::uint32_t below(std::uint32_t count) { return static_cast<std::uint32_t>(engine_()) % count; }
  std::uint8_t byte() { return static_cast<std::uint8_t>(engine_() >> 7); }
  bool coin() { return (engine_() >> 9 & 1U) != 0; }

 private:
  std::mt19937 engine_;
};

/// Dumps that differ everywhere.
inline std::vector<Evidence::Bytes> random_dumps(Dice& dice, std::size_t count, std::size_t size) {
  std::vector<Evidence::Bytes> dumps(count, Evidence::Bytes(size));
  for (Evidence::Bytes& dump : dumps)
    for (std::uint8_t& byte : dump) byte = dice.byte();
  return dumps;
}

/// Dumps that are equal except in `changes` places, a few bits each.
inline std::vector<Evidence::Bytes> alike_dumps(Dice& dice, std::size_t count, std::size_t size,
                                                std::size_t changes) {
  std::vector<Evidence::Bytes> dumps(count, random_dumps(dice, 1, size)[0]);
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < changes; ++i)
    places.push_back(dice.below(static_cast<std::uint32_t>(size)));
  for (std::size_t d = 1; d < count; ++d)
    for (const std::size_t at : places)
      dumps[d][at] = static_cast<std::uint8_t>(dumps[d][at] ^ (dice.byte() & dice.byte()));
  return dumps;
}

}  // namespace rtcmend::test
