#pragma once

#include <vector>

#include "discover/dump_set.h"
#include "support/invented_firmware.h"

namespace rtcmend::test {

/// Dumps that differ everywhere.
inline std::vector<DumpSet::Bytes> random_dumps(Dice& dice, std::size_t count, std::size_t size) {
  std::vector<DumpSet::Bytes> dumps(count, DumpSet::Bytes(size));
  for (DumpSet::Bytes& dump : dumps)
    for (std::uint8_t& byte : dump) byte = dice.byte();
  return dumps;
}

/// Dumps that are equal except in `changes` places, a few bits each.
inline std::vector<DumpSet::Bytes> alike_dumps(Dice& dice, std::size_t count, std::size_t size,
                                               std::size_t changes) {
  std::vector<DumpSet::Bytes> dumps(count, random_dumps(dice, 1, size)[0]);
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < changes; ++i)
    places.push_back(dice.below(static_cast<std::uint32_t>(size)));
  for (std::size_t d = 1; d < count; ++d)
    for (const std::size_t at : places)
      dumps[d][at] = static_cast<std::uint8_t>(dumps[d][at] ^ (dice.byte() & dice.byte()));
  return dumps;
}

}  // namespace rtcmend::test
