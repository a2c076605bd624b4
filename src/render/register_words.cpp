#include "render/register_words.h"

#include <fmt/format.h>

namespace rtcmend {

unsigned value_of(const NamedBits& bits, std::uint8_t byte) {
  return (byte >> bits.low) & ((1U << (bits.high - bits.low + 1)) - 1);
}

std::string bit_numbers(const NamedBits& bits) {
  if (bits.high == bits.low) return fmt::format("{}", bits.low);
  return fmt::format("{}-{}", bits.high, bits.low);
}

}  // namespace rtcmend
