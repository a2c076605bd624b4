#include "check/check.h"

#include <algorithm>
#include <array>
#include <bitset>
#include <cassert>
#include <span>

namespace rtcmend {

namespace {

using AddressSet = std::bitset<0x100>;

// What a check rests on in one image. Ranges do not overlap and a chip has 128 bytes, so that is
// the most that a check covers; without a heap, judging one takes a fraction of the time.
struct Gathered {
  std::array<std::uint8_t, Image::large_size> bytes;  // the known ones, in the order of the ranges
  std::size_t count = 0;
  AddressSet unknown;

  std::span<const std::uint8_t> known() const { return {bytes.data(), count}; }
};

void gather_range(const Range& range, const Image& image, Gathered& gathered) {
  for (unsigned i = range.first; i <= range.last; ++i) {
    const auto at = static_cast<Address>(i);
    assert(gathered.count < gathered.bytes.size());
    if (image.known(at))
      gathered.bytes[gathered.count++] = image[at];
    else
      gathered.unknown.set(at);
  }
}

Gathered gather_covered(const Check& check, const Image& image) {
  Gathered gathered;
  for (const auto& [range, when] : check.over) {
    const std::optional<bool> holds = when ? when->holds(image) : true;
    if (!holds)
      gathered.unknown.set(when->at);
    else if (*holds)
      gather_range(range, image, gathered);
  }
  return gathered;
}

std::optional<std::uint16_t> read_stored(const Check& check, const Image& image) {
  const auto first = image.at(check.stored_at);
  if (width(check) == 8) return first;
  const auto second = image.at(static_cast<Address>(check.stored_at + 1));
  if (!first || !second) return std::nullopt;
  const bool low_first = check.order == Order::low_first;
  const unsigned low = low_first ? *first : *second, high = low_first ? *second : *first;
  return static_cast<std::uint16_t>(high << 8 | low);
}

bool all_equal_to(std::uint8_t value, std::span<const std::uint8_t> bytes) {
  return std::ranges::all_of(bytes, [value](std::uint8_t byte) { return byte == value; });
}

Addresses listed(const AddressSet& set) {
  Addresses addresses;
  if (set.none()) return addresses;
  for (std::size_t at = 0; at < set.size(); ++at)
    if (set[at]) addresses.push_back(static_cast<Address>(at));
  return addresses;
}

}  // namespace

unsigned width(const Check& check) {
  return width(check.rule);
}

std::string kind(const Check& check) {
  return kind(check.rule);
}

std::string describe(const Check& check) {
  return describe(check.rule);
}

Addresses stored_addresses(const Check& check) {
  if (width(check) == 8) return {check.stored_at};
  return {check.stored_at, static_cast<Address>(check.stored_at + 1)};
}

Addresses covered_addresses(const Check& check) {
  Addresses all;
  for (const Covered& covered : check.over) {
    const Addresses some = to_addresses(covered.range);
    all.insert(all.end(), some.begin(), some.end());
  }
  return all;
}

CheckResult evaluate(const Check& check, const Image& image) {
  CheckResult result;
  result.check = &check;
  const std::optional<bool> counts = check.when ? check.when->holds(image) : true;
  result.counts = counts.value_or(true);
  if (!result.counts) return result;

  Gathered gathered = gather_covered(check, image);
  if (!counts) gathered.unknown.set(check.when->at);
  result.counts = gathered.count > 0 || gathered.unknown.any();
  if (!result.counts) return result;
  if (gathered.unknown.none()) {
    result.computed = compute(check.rule, gathered.known());
    result.blank = all_equal_to(0x00, gathered.known()) || all_equal_to(0xFF, gathered.known());
  }

  result.stored = read_stored(check, image);
  for (unsigned i = 0; i < width(check) / 8; ++i) {
    const auto at = static_cast<Address>(check.stored_at + i);
    if (!image.known(at)) gathered.unknown.set(at);
  }
  result.unknown = listed(gathered.unknown);
  return result;
}

}  // namespace rtcmend
