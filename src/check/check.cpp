#include "check/check.h"

#include <algorithm>
#include <set>

namespace rtcmend {

namespace {

// What a check rests on in one image.
struct Gathered {
  std::vector<std::uint8_t> bytes;  // the known ones, in the order of the ranges
  std::set<Address> unknown;
};

void gather_range(const Range& range, const Image& image, Gathered& gathered) {
  for (const Address at : to_addresses(range)) {
    if (const auto byte = image.at(at))
      gathered.bytes.push_back(*byte);
    else
      gathered.unknown.insert(at);
  }
}

Gathered gather_covered(const Check& check, const Image& image) {
  Gathered gathered;
  for (const auto& [range, when] : check.over) {
    const std::optional<bool> holds = when ? when->holds(image) : true;
    if (!holds)
      gathered.unknown.insert(when->at);
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

bool all_equal_to(std::uint8_t value, const std::vector<std::uint8_t>& bytes) {
  return std::ranges::all_of(bytes, [value](std::uint8_t byte) { return byte == value; });
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
  if (!counts) gathered.unknown.insert(check.when->at);
  if (gathered.unknown.empty()) {
    result.computed = compute(check.rule, gathered.bytes);
    result.blank = all_equal_to(0x00, gathered.bytes) || all_equal_to(0xFF, gathered.bytes);
  }

  result.stored = read_stored(check, image);
  for (const Address at : stored_addresses(check))
    if (!image.known(at)) gathered.unknown.insert(at);
  result.unknown.assign(gathered.unknown.begin(), gathered.unknown.end());
  return result;
}

}  // namespace rtcmend
