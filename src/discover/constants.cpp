#include "discover/constants.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"

namespace rtcmend {

namespace {

std::uint16_t all_ones(unsigned width) {
  return width == 8 ? 0xFF : 0xFFFF;
}

// One step of the division undone. The constant term of the polynomial tells from the lowest bit
// whether it was subtracted.
std::uint16_t undo_step(unsigned width, std::uint16_t poly, std::uint16_t rest) {
  const unsigned top = 1U << (width - 1);
  const unsigned before = (rest & 1U) != 0 ? (rest ^ poly) >> 1 | top : rest >> 1;
  return static_cast<std::uint16_t>(before);
}

// The start value that ends in `stored` without a final xor.
std::uint16_t start_that_gives(const Formula& formula, const DumpSet::Bytes& covered,
                               std::uint16_t stored) {
  std::uint16_t rest = formula.refout ? mirror(stored, formula.width) : stored;
  for (std::size_t i = covered.size(); i-- > 0;) {
    for (int step = 0; step < 8; ++step) rest = undo_step(formula.width, formula.poly, rest);
    const unsigned byte = formula.refin ? mirror(covered[i], 8) : covered[i];
    rest = static_cast<std::uint16_t>(rest ^ byte << (formula.width - 8));
  }
  return rest;
}

std::vector<Rule> settle_crc(const Formula& formula, const DumpSet::Bytes& covered,
                             std::uint16_t stored) {
  const std::uint16_t ones = all_ones(formula.width);
  std::vector<Rule> rules;
  for (const std::uint16_t xorout : {std::uint16_t{0}, ones}) {
    for (const std::uint16_t init : {ones, std::uint16_t{0}}) {
      const CrcModel model{formula.width, formula.poly,   init,
                           formula.refin, formula.refout, xorout};
      if (crc_bitwise(model, covered) == stored) rules.push_back(CrcRule{model});
    }
  }
  if (!rules.empty()) return rules;
  const std::uint16_t init = start_that_gives(formula, covered, stored);
  return {CrcRule{{formula.width, formula.poly, init, formula.refin, formula.refout, 0}}};
}

// stored = constant - sum, said in three ways.
std::vector<Rule> settle_inverse_sum(const Formula& formula, std::uint16_t constant) {
  const auto kept = [&](unsigned value) {
    return static_cast<std::uint16_t>(value & all_ones(formula.width));
  };
  std::vector<Rule> rules;
  if (formula.width == 8) rules.push_back(BalanceRule{static_cast<std::uint8_t>(constant)});
  rules.push_back(SumRule{formula.width, kept(0U - constant), Sign::negated, formula.pairs});
  rules.push_back(SumRule{formula.width, kept(~constant), Sign::complemented, formula.pairs});
  std::stable_partition(rules.begin(), rules.end(), has_customary_constant);
  return rules;
}

std::string id_of(const Match& match, const Rule& rule) {
  return lower(fmt::format("{}-{:02X}-{:02X}", kind(rule), match.range.first, match.range.last));
}

}  // namespace

std::vector<Rule> constants_of(const DumpSet& evidence, const Match& match) {
  const DumpSet::Bytes covered = covered_in(evidence, evidence.dumps[0], match.range);
  const auto stored = stored_in(evidence.dumps[0], match.at, match.order, match.formula.width);
  if (match.formula.kind == Formula::Kind::crc) return settle_crc(match.formula, covered, stored);
  const auto constant =
      constant_between(match.formula, plain_value(match.formula, covered), stored);
  if (match.formula.kind == Formula::Kind::exclusive_or)
    return {XorRule{static_cast<std::uint8_t>(constant)}};
  if (match.formula.inverse) return settle_inverse_sum(match.formula, constant);
  return {SumRule{match.formula.width, constant, Sign::plain, match.formula.pairs}};
}

bool has_customary_constant(const Rule& rule) {
  if (const auto* sum = std::get_if<SumRule>(&rule)) return sum->start == 0;
  if (const auto* all = std::get_if<XorRule>(&rule)) return all->start == 0;
  if (const auto* balance = std::get_if<BalanceRule>(&rule))
    return balance->target == 0 || balance->target == 0xFF;
  const CrcModel& model = std::get<CrcRule>(rule).model;
  const std::uint16_t ones = all_ones(model.width);
  return (model.init == 0 || model.init == ones) && (model.xorout == 0 || model.xorout == ones);
}

Check to_check(const DumpSet& evidence, const Match& match, const Rule& rule) {
  Check check;
  check.id = id_of(match, rule);
  check.rule = rule;
  Addresses covered;
  for (unsigned at = match.range.first; at <= match.range.last; ++at)
    if (!evidence.hole[at]) covered.push_back(static_cast<Address>(at));
  for (const Range& range : to_ranges(covered)) check.over.push_back({range, std::nullopt});
  check.stored_at = match.at;
  check.order = match.order;
  return check;
}

}  // namespace rtcmend
