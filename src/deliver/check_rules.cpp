#include "deliver/check_rules.h"

#include <variant>

namespace rtcmend {

namespace {

// The traits of asm/checks.inc.
constexpr unsigned wide = 0x01, high_first = 0x02, pairs = 0x04, pairs_high = 0x08, negated = 0x10,
                   complemented = 0x20, mirror_in = 0x40, mirror_out = 0x80;
constexpr std::uint8_t end_of_ranges = 0xFF;

/// What differs from one kind of rule to the next.
struct Encoded {
  std::uint8_t kind = 0;  ///< 1 sum, 2 xor, 3 CRC, 4 balance
  unsigned traits = 0;
  std::uint16_t start = 0;
  std::uint16_t poly = 0;
  std::uint16_t xorout = 0;
};

Encoded encode(const SumRule& sum) {
  Encoded code{.kind = 1, .start = sum.start};
  if (sum.pairs) code.traits |= pairs;
  if (sum.pairs == Order::high_first) code.traits |= pairs_high;
  if (sum.sign == Sign::negated) code.traits |= negated;
  if (sum.sign == Sign::complemented) code.traits |= complemented;
  return code;
}

Encoded encode(const XorRule& rule) {
  return {.kind = 2, .start = rule.start};
}

/// A CRC of 8 bits is computed in the high byte of 16.
Encoded encode(const CrcRule& rule) {
  const CrcModel& model = rule.model;
  const unsigned up = 16 - model.width;
  Encoded code{.kind = 3,
               .start = static_cast<std::uint16_t>(model.init << up),
               .poly = static_cast<std::uint16_t>(model.poly << up),
               .xorout = model.xorout};
  if (model.refin) code.traits |= mirror_in;
  if (model.refout) code.traits |= mirror_out;
  return code;
}

Encoded encode(const BalanceRule& rule) {
  return {.kind = 4, .poly = rule.target};
}

void put_word(std::vector<std::uint8_t>& bytes, std::uint16_t value) {
  bytes.push_back(static_cast<std::uint8_t>(value));
  bytes.push_back(static_cast<std::uint8_t>(value >> 8));
}

/// Address, mask, value; mask 0 holds always.
void put_condition(std::vector<std::uint8_t>& bytes, const std::optional<Condition>& when) {
  const Condition condition = when.value_or(Condition{0, 0, 0});
  bytes.insert(bytes.end(), {condition.at, condition.mask, condition.value});
}

void put_check(std::vector<std::uint8_t>& bytes, const Check& check) {
  Encoded code = std::visit([](const auto& rule) { return encode(rule); }, check.rule);
  if (width(check) == 16) code.traits |= wide;
  if (check.order == Order::high_first) code.traits |= high_first;
  bytes.insert(bytes.end(), {code.kind, static_cast<std::uint8_t>(code.traits), check.stored_at});
  put_condition(bytes, check.when);
  put_word(bytes, code.start);
  put_word(bytes, code.poly);
  put_word(bytes, code.xorout);
  for (const Covered& covered : check.over) {
    bytes.insert(bytes.end(), {covered.range.first, covered.range.last});
    put_condition(bytes, covered.when);
  }
  bytes.push_back(end_of_ranges);
}

}  // namespace

std::vector<std::uint8_t> encode_check_rules(const std::vector<Check>& checks) {
  std::vector<std::uint8_t> bytes;
  for (const Check& check : checks) put_check(bytes, check);
  bytes.push_back(0);
  return bytes;
}

}  // namespace rtcmend
