#include "images/injected_faults.h"

#include <fmt/format.h>

#include "judge/health.h"
#include "judge/rearrange.h"

namespace rtcmend {

namespace {

Injected data_bit(const Image& image, Dice& dice) {
  const unsigned bit = roll(dice, 8);
  return with_data_bit_stuck(image, bit, once_in(dice, 2));
}

Injected address_line(const Image& image, Dice& dice) {
  const unsigned line = roll(dice, image.size() == Image::small_size ? 6 : 7);
  return with_address_line_stuck(image, line, once_in(dice, 2));
}

Injected mirror(const Image& image, Dice& /*dice*/) {
  return {repeated(image), "halves-mirrored", "64-byte part"};
}

int random_places(Dice& dice) {
  const int places = 1 + static_cast<int>(roll(dice, 4));
  return once_in(dice, 2) ? places : -places;
}

Injected shifted_round(const Image& image, Dice& dice) {
  const int places = random_places(dice);
  return {rotated(image, places), "shifted", fmt::format("shifted by {}:", places)};
}

/// A header before the first byte, or a reading that began late and ran into something else.
Injected shifted_with_foreign_bytes(const Image& image, Dice& dice) {
  const int places = random_places(dice);
  Image moved = rotated(image, places);
  const auto size = static_cast<int>(image.size());
  for (int i = 0; i < std::abs(places); ++i) {
    const int at = places > 0 ? i : size - 1 - i;
    moved.set(static_cast<Address>(at), static_cast<std::uint8_t>(roll(dice, 256)));
  }
  return {moved, "shifted", fmt::format("shifted by {}:", places)};
}

Injected nibbles(const Image& image, Dice& /*dice*/) {
  return {with_nibbles_swapped(image), "nibbles-swapped", "swapped"};
}

Injected bit_order(const Image& image, Dice& /*dice*/) {
  return {with_bits_reversed(image), "bits-reversed", "reverse order"};
}

}  // namespace

bool named_rightly(const Injected& fault) {
  const auto findings = health(fault.image, all_layouts());
  return findings.size() == 1 && findings[0].id() == fault.id &&
         findings[0].text.find(fault.says) != std::string::npos;
}

Injected with_data_bit_stuck(const Image& image, unsigned bit, bool high) {
  Image spoilt = image;
  for (std::size_t i = 0; i < image.size(); ++i) {
    const auto at = static_cast<Address>(i);
    const unsigned mask = 1U << bit;
    spoilt.set(at, static_cast<std::uint8_t>(high ? image[at] | mask : image[at] & ~mask));
  }
  return {spoilt, "data-bit-stuck", fmt::format("Data bit {} is {} in", bit, high ? 1 : 0)};
}

Injected with_address_line_stuck(const Image& image, unsigned line, bool high) {
  Image spoilt = image;
  for (unsigned i = 0; i < image.size(); ++i) {
    const unsigned bit = 1U << line;
    spoilt.set(static_cast<Address>(i), image[static_cast<Address>(high ? i | bit : i & ~bit)]);
  }
  // A6 stuck at 0 leaves exactly the bytes that a 64-byte part would give.
  if (line == 6 && !high) return {spoilt, "halves-mirrored", "address line A6"};
  return {spoilt, "address-line-stuck",
          fmt::format("line A{} is stuck, most likely at {}", line, high ? 1 : 0)};
}

const std::vector<FaultKind>& fault_kinds() {
  static const std::vector<FaultKind> kinds{
      {"data bit stuck", data_bit},
      {"address line stuck", address_line},
      {"64 bytes read as 128", mirror, true},
      {"shifted, going round", shifted_round},
      {"shifted, foreign bytes in", shifted_with_foreign_bytes},
      {"nibbles swapped", nibbles},
      {"bits reversed", bit_order},
  };
  return kinds;
}

}  // namespace rtcmend
