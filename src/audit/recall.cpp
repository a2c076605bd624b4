#include "audit/recall.h"

#include <bit>
#include <map>

#include "judge/relations.h"

namespace rtcmend {

DecidingBits::DecidingBits(const Addresses& whole_bytes) {
  for (const Address at : whole_bytes) add(at, 0xFF);
}

std::optional<DecidingBits> DecidingBits::of(const std::vector<BitSlice>& slices) {
  std::map<Address, std::uint8_t> masks;
  for (const BitSlice& slice : slices) masks[slice.at] |= slice.mask();
  if (masks.size() > most_bytes) return std::nullopt;
  DecidingBits bits;
  for (const auto& [at, mask] : masks) bits.add(at, mask);
  return bits;
}

void DecidingBits::add(Address at, std::uint8_t mask) {
  if (mask == 0) return;
  const auto low = static_cast<unsigned>(std::countr_zero(mask));
  const auto width = static_cast<unsigned>(std::bit_width(mask)) - low;
  parts_[count_++] = {at, static_cast<std::uint8_t>(low), static_cast<std::uint8_t>(width),
                      static_cast<std::uint8_t>((1U << width) - 1)};
  width_ += width;
}

std::optional<DecidingBits> bits_that_decide(const Field& field, const Layout& layout) {
  return DecidingBits::of(resting_bits(field, layout));
}

}  // namespace rtcmend
