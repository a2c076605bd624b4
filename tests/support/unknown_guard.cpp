#include "support/unknown_guard.h"

#include <algorithm>

namespace rtcmend::test {

namespace {

using Bytes = std::vector<std::uint8_t>;
using Kind = UnknownGuard::Kind;

// Of twenty firmwares two have no check, three one that is not searched.
Kind draw_kind(Dice& dice) {
  const auto draw = dice.below(20);
  if (draw < 2) return Kind::none;
  if (draw > 4) return Kind::searched;
  constexpr Kind others[] = {Kind::hole, Kind::end_around, Kind::rotated, Kind::nibbles,
                             Kind::weighted};
  return others[dice.below(std::size(others))];
}

// Of ten checks: two 8-bit sums, two 16-bit sums, a negated one of each, an xor, an 8-bit CRC, two
// 16-bit CRCs with polynomials that were customary.
Rule draw_rule(Dice& dice) {
  switch (dice.below(10)) {
    case 0:
    case 1:
      return SumRule{8, 0, Sign::plain, std::nullopt};
    case 2:
    case 3:
      return SumRule{16, 0, Sign::plain, std::nullopt};
    case 4:
      return SumRule{8, 0, Sign::negated, std::nullopt};
    case 5:
      return SumRule{16, 0, Sign::negated, std::nullopt};
    case 6:
      return XorRule{dice.coin() ? std::uint8_t{0} : std::uint8_t{0xA5}};
    case 7:
      return CrcRule{{8, 0x07, 0, false, false, 0}};
    case 8:
      return CrcRule{{16, 0x1021, 0xFFFF, false, false, 0}};
    default:
      return CrcRule{{16, 0x8005, 0, true, true, 0}};
  }
}

unsigned add(Kind kind, unsigned sum, unsigned byte, unsigned place) {
  switch (kind) {
    case Kind::end_around:
      return ((sum + byte) & 0xFF) + ((sum + byte) >> 8);
    case Kind::rotated:
      return ((sum << 1 | sum >> 7) + byte) & 0xFF;
    case Kind::nibbles:
      return (sum + (byte >> 4) + (byte & 15)) & 0xFF;
    default:
      return (sum + place * byte) & 0xFF;
  }
}

unsigned worked_out(const UnknownGuard& guard, const Bytes& covered) {
  if (guard.kind <= Kind::hole) return compute(guard.check.rule, covered);
  unsigned sum = 0, place = 0;
  for (const std::uint8_t byte : covered) sum = add(guard.kind, sum, byte, ++place);
  return sum;
}

}  // namespace

UnknownGuard draw_guard(Dice& dice) {
  UnknownGuard guard;
  guard.kind = draw_kind(dice);
  guard.check.rule = draw_rule(dice);
  if (guard.kind > Kind::hole) guard.check.rule = SumRule{8, 0, Sign::plain, std::nullopt};
  guard.check.order = dice.coin() ? Order::high_first : Order::low_first;
  const auto first = static_cast<Address>(0x10 + dice.below(5));
  const auto last = static_cast<Address>(0x28 + dice.below(12));
  guard.check.over = {{{first, last}, std::nullopt}};
  guard.check.stored_at = static_cast<Address>(last + 1 + dice.below(3));
  if (guard.kind == Kind::hole)
    for (unsigned i = 0; i < 3; ++i)
      guard.hole.push_back(static_cast<Address>(first + 5 + dice.below(12)));
  return guard;
}

void protect(const UnknownGuard& guard, Bytes& bytes) {
  if (guard.kind == Kind::none) return;
  Bytes covered;
  const Range range = guard.check.over[0].range;
  for (unsigned at = range.first; at <= range.last; ++at)
    if (std::ranges::count(guard.hole, at) == 0) covered.push_back(bytes[at]);
  const unsigned value = worked_out(guard, covered);
  const Addresses stored = stored_addresses(guard.check);
  const auto low = static_cast<std::uint8_t>(value & 0xFF);
  const auto high = static_cast<std::uint8_t>(value >> 8);
  if (stored.size() == 1) {
    bytes[stored[0]] = low;
    return;
  }
  const bool low_first = guard.check.order == Order::low_first;
  bytes[stored[0]] = low_first ? low : high;
  bytes[stored[1]] = low_first ? high : low;
}

}  // namespace rtcmend::test
