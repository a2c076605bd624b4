#include "discover/habits.h"

#include <algorithm>
#include <array>

#include "discover/shared_motion.h"

namespace rtcmend {

namespace {

// The polynomials of the named models in Cook's "Catalogue of parametrised CRC algorithms" that
// have been around since the days of these machines.
constexpr std::array<std::uint16_t, 4> known_polys_16 = {0x1021, 0x8005, 0x3D65, 0x8BB7};
constexpr std::array<std::uint16_t, 4> known_polys_8 = {0x07, 0x31, 0x1D, 0x9B};

bool is_known(const CrcModel& model) {
  const auto& known = model.width == 8 ? known_polys_8 : known_polys_16;
  return std::ranges::find(known, model.poly) != known.end();
}

void add_arithmetic(const Rule& rule, std::vector<Habit>& habits) {
  // A start value that falls on 0 or all ones by itself would be one in 2^width.
  if (has_customary_constant(rule))
    habits.push_back({width(rule) == 16 ? 12.0 : 5.0, "a customary start value"});
  const auto* crc = std::get_if<CrcRule>(&rule);
  if (crc == nullptr) {
    // A handful of sums stand against a hundred thousand CRCs in the space.
    habits.push_back({width(rule) == 16 ? 12.0 : 6.0, "simple arithmetic"});
    if (const auto* sum = std::get_if<SumRule>(&rule); sum != nullptr && sum->pairs)
      habits.push_back({-3.0, "bytes added in pairs, which is rare"});
    return;
  }
  if (is_known(crc->model)) habits.push_back({6.0, "a well-known polynomial"});
  if (crc->model.refin == crc->model.refout)
    habits.push_back({2.0, "both bit directions alike"});
  else
    habits.push_back({-2.0, "bit directions that differ, which is rare"});
}

void add_place(const DumpSet& evidence, const Match& match, std::vector<Habit>& habits) {
  const unsigned bytes = match.formula.width / 8;
  if (match.at == match.range.last + 1) habits.push_back({4.0, "stored right behind the range"});
  if (match.at + bytes == match.range.first)
    habits.push_back({1.0, "stored right before the range"});
  if (match.at + bytes == evidence.size()) habits.push_back({1.0, "stored at the end of the chip"});
  if (match.range.first % 16 == 0)
    habits.push_back({2.0, "a range that begins at a round address"});
  else if (match.range.first == Image::ram_start)
    habits.push_back({1.0, "a range that begins with the RAM"});
  if (match.range.last % 16 == 15)
    habits.push_back({1.0, "a range that ends before a round address"});
  if (match.range.size() >= 8) habits.push_back({1.0, "a range worth protecting"});
  // Seconds, minutes and status bits change without the firmware: no sum over them would last.
  if (match.range.first < Image::ram_start)
    habits.push_back({-10.0, "a range with clock bytes in it, which would not last a second"});
  if (match.at < Image::ram_start) habits.push_back({-10.0, "stored in a clock byte"});
}

bool resembles(const Match& match, const Rule& rule, const Check& known) {
  return match.at == known.stored_at && width(rule) == width(known) &&
         match.range.first == known.over.front().range.first &&
         match.range.last == known.over.back().range.last && kind(rule) == kind(known);
}

// The changes of a byte over all pairs of dumps.
DumpSet::Bytes changes_of(const DumpSet& evidence, Address at) {
  DumpSet::Bytes changes;
  for (std::size_t pair = 0; pair < evidence.pairs(); ++pair)
    changes.push_back(evidence.difference(pair, at));
  return changes;
}

// The sum without any limit.
long whole_sum(const Formula& formula, const DumpSet::Bytes& covered) {
  long sum = 0;
  for (std::size_t i = 0; i < covered.size(); ++i) {
    const bool high = formula.pairs && (i % 2 == 0) == (*formula.pairs == Order::high_first);
    sum += high ? covered[i] << 8 : covered[i];
  }
  return sum;
}

}  // namespace

std::vector<Habit> habits_of(const DumpSet& evidence, const Question& question, const Match& match,
                             const Rule& rule) {
  std::vector<Habit> habits;
  if (std::ranges::any_of(question.familiar,
                          [&](const Check& known) { return resembles(match, rule, known); }))
    habits.push_back({6.0, "range and place as in a known layout"});
  add_arithmetic(rule, habits);
  add_place(evidence, match, habits);
  return habits;
}

double total(const std::vector<Habit>& habits) {
  double bits = 0;
  for (const Habit& habit : habits) bits += habit.bits;
  return bits;
}

bool is_half_proven(const DumpSet& evidence, const Match& match) {
  if (match.formula.width == 8) return false;
  const auto next = static_cast<Address>(match.at + 1);
  if (evidence.varies[match.at] && evidence.varies[next]) return false;
  return evidence.mostly_still;
}

bool has_carried(const DumpSet& evidence, const Match& match) {
  const Formula& formula = match.formula;
  if (formula.kind != Formula::Kind::sum || (formula.width == 16 && !formula.pairs)) return true;
  std::vector<long> levels;  // stored value less what the sum alone makes of it
  for (const DumpSet::Bytes& dump : evidence.dumps) {
    const DumpSet::Bytes covered = covered_in(evidence, dump, match.range);
    const long sum = whole_sum(formula, covered);
    const long stored = stored_in(dump, match.at, match.order, formula.width);
    levels.push_back(formula.inverse ? stored + sum : stored - sum);
  }
  return std::ranges::any_of(levels, [&](long level) { return level != levels.front(); });
}

Addresses still_bytes(const DumpSet& evidence, const Match& match) {
  Addresses still;
  for (unsigned at = match.range.first; at <= match.range.last; ++at)
    if (!evidence.varies[at] && !evidence.hole[at]) still.push_back(static_cast<Address>(at));
  return still;
}

bool is_copy(const DumpSet& evidence, const Match& match) {
  if (is_shared_motion(evidence, match)) return true;
  std::vector<DumpSet::Bytes> originals;
  for (unsigned at = match.range.first; at <= match.range.last; ++at)
    if (evidence.varies[at] && !evidence.hole[at])
      originals.push_back(changes_of(evidence, static_cast<Address>(at)));
  if (originals.size() > match.formula.width / 8) return false;
  for (unsigned at = match.at; at < match.at + match.formula.width / 8U; ++at)
    if (evidence.varies[at]) std::erase(originals, changes_of(evidence, static_cast<Address>(at)));
  return originals.empty();
}

}  // namespace rtcmend
