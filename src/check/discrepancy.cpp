#include "check/discrepancy.h"

#include <variant>

namespace rtcmend {

namespace {

using Moves = std::array<std::uint16_t, 8>;

/// Bit 0 counts `weight`, the others twice the one below.
Moves moves_by(unsigned weight) {
  Moves moves{};
  for (unsigned bit = 0; bit < moves.size(); ++bit)
    moves[bit] = static_cast<std::uint16_t>(weight << bit);
  return moves;
}

/// By how much (xored) each bit of a message of `count` bytes changes its CRC when it is flipped: a
/// CRC is linear, so that is the CRC, from an empty register, of nothing but that bit.
std::vector<Moves> moves_in_crc(CrcModel model, std::size_t count) {
  const bool refout = model.refout;
  model.xorout = 0;
  std::array<std::uint16_t, 8> registers{};
  std::vector<Moves> moves(count);
  for (std::size_t behind = 0; behind < count; ++behind)
    for (unsigned bit = 0; bit < 8; ++bit) {
      const auto byte = static_cast<std::uint8_t>(behind == 0 ? 1U << bit : 0U);
      model.init = registers[bit];
      model.refout = false;
      registers[bit] = crc_bitwise(model, std::array{byte});
      model.init = registers[bit];
      model.refout = refout;
      moves[count - 1 - behind][bit] = crc_bitwise(model, {});
    }
  return moves;
}

Addresses covered_in(const Check& check, const Image& image) {
  Addresses covered;
  for (const auto& [range, when] : check.over) {
    if (when && !when->holds(image).value_or(true)) continue;
    const Addresses some = to_addresses(range);
    covered.insert(covered.end(), some.begin(), some.end());
  }
  return covered;
}

/// What a covered byte counts in the computed value, by its place among the covered ones.
unsigned weight_in_sum(const SumRule& sum, std::size_t place) {
  if (!sum.pairs) return 1;
  const bool is_first = place % 2 == 0;
  return is_first == (*sum.pairs == Order::low_first) ? 1 : 0x100;
}

bool adds_up(const Rule& rule) {
  return std::holds_alternative<SumRule>(rule) || std::holds_alternative<BalanceRule>(rule);
}

}  // namespace

Discrepancy::Discrepancy(const Check& check, const Image& image)
    : carries_(adds_up(check.rule)), mask_(width(check) == 8 ? 0x00FF : 0xFFFF) {
  const CheckResult result = evaluate(check, image);
  const unsigned stored = result.stored.value_or(0), computed = result.computed.value_or(0);
  now_ = static_cast<std::uint16_t>(carries_ ? (stored - computed) & mask_ : stored ^ computed);

  add_covered(check, covered_in(check, image));
  const Addresses at = stored_addresses(check);
  for (std::size_t i = 0; i < at.size(); ++i) {
    const bool is_high = at.size() == 2 && (i == 0) == (check.order == Order::high_first);
    add(at[i], moves_by(is_high ? 0x100 : 1));
  }
}

void Discrepancy::add_covered(const Check& check, const Addresses& covered) {
  if (const auto* crc = std::get_if<CrcRule>(&check.rule)) {
    const auto moves = moves_in_crc(crc->model, covered.size());
    for (std::size_t i = 0; i < covered.size(); ++i) add(covered[i], moves[i]);
    return;
  }
  const auto* sum = std::get_if<SumRule>(&check.rule);
  for (std::size_t i = 0; i < covered.size(); ++i) {
    const unsigned weight = sum != nullptr ? weight_in_sum(*sum, i) : 1;
    // What makes the computed value greater makes the gap smaller. A balance, as a negated sum,
    // falls as its bytes rise.
    const bool falls = sum != nullptr && sum->sign == Sign::plain;
    add(covered[i], moves_by(falls ? 0 - weight : weight));
  }
}

void Discrepancy::add(Address at, const Moves& moves) {
  for (unsigned bit = 0; bit < moves.size(); ++bit) {
    std::uint16_t& move = moves_[at][bit];
    move = joined(move, static_cast<std::uint16_t>(moves[bit] & mask_));
  }
}

std::vector<std::uint8_t> Discrepancy::closing(Address at, std::uint8_t from) const {
  const std::uint16_t empty = moved(now_, at, from, 0);
  const unsigned weight = moves_[at][0];
  if (carries_ && (weight == 1 || weight == mask_)) {  // 1 or -1, its own inverse
    const unsigned value = (0 - empty * weight) & mask_;
    if (value > 0xFF) return {};
    return {static_cast<std::uint8_t>(value)};
  }
  // What each half of the byte moves, by the half's value.
  std::array<std::uint16_t, 16> low{}, high{};
  for (unsigned bit = 0; bit < 4; ++bit)
    for (unsigned below = 0; below < 1U << bit; ++below) {
      low[1U << bit | below] = joined(low[below], moves_[at][bit]);
      high[1U << bit | below] = joined(high[below], moves_[at][bit + 4]);
    }
  std::vector<std::uint8_t> values;
  for (unsigned upper = 0; upper < high.size(); ++upper) {
    const std::uint16_t wanted = parted(0, joined(empty, high[upper]));
    for (unsigned lower = 0; lower < low.size(); ++lower)
      if (low[lower] == wanted) values.push_back(static_cast<std::uint8_t>(upper << 4 | lower));
  }
  return values;
}

}  // namespace rtcmend
