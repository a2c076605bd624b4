#include "identify/evidence.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <fmt/format.h>

#include "check/check.h"
#include "chip/registers.h"
#include "judge/credence.h"
#include "judge/relations.h"
#include "layout/codec.h"

namespace rtcmend {

namespace {

// Weights by judgement: about one dump in 256 of the layout's own machines has a check in ruins,
// one in 16 a small damage under it; one field in eight holds what the layout does not know, one
// relation in 16 is out of step.
constexpr double ruined_check = -8, small_damage = -4, illegal_field = -3, broken_relation = -4;
// A second copy under the same check as the first: as long as the check holds, only the firmware
// itself can have made them differ, and it writes both.
constexpr double broken_copy = -10;
// 15 and not 16 bits: two orders were tried.
constexpr double other_order = small_damage + 15;
// An area that is kept but empty is met less often than one that is not kept at all.
constexpr double empty_area = -2;
constexpr double least_for_a_chip = -6;
// No single field or relation may weigh as much as an 8-bit check.
constexpr double most_for_a_field = 7;

/// How far a stored sum is off, the shorter way round.
unsigned apart(const CheckResult& result) {
  const auto off = static_cast<std::uint16_t>(*result.stored - *result.computed);
  return std::min<unsigned>(off, 0x10000U - off);
}

// A changed bit puts a 16-bit sum off by one of 31 differences of 65,536 (5 bits of 16), a changed
// byte by one of 511 (9 bits); and the layouts have some eight sums to be missed by so little (3).
constexpr double one_bit = 16 - 5 - 3, one_byte = 16 - 9 - 3;

double near_miss_of_sum(const CheckResult& result) {
  if (std::has_single_bit(apart(result))) return one_bit;
  return apart(result) < 0x100 ? one_byte : 0;
}

Addresses all_addresses(const Check& check) {
  Addresses all = covered_addresses(check);
  const Addresses stored = stored_addresses(check);
  all.insert(all.end(), stored.begin(), stored.end());
  return all;
}

bool holds_with_flipped(const Check& check, const Image& image, Address at, unsigned bit) {
  Image flipped = image;
  flipped.set(at, static_cast<std::uint8_t>(image[at] ^ (1U << bit)));
  return evaluate(check, flipped).ok();
}

/// A CRC is linear: a flipped bit changes it by an amount that depends on the bit's place alone. So
/// instead of trying every bit, look for the place that makes just this difference.
bool one_bit_explains_crc(const CheckResult& result, const Image& image) {
  const Check& check = *result.check;
  const Addresses covered = covered_addresses(check);
  const auto difference = static_cast<std::uint16_t>(*result.stored ^ *result.computed);
  const auto places =
      crc_bit_places(std::get<CrcRule>(check.rule).model, covered.size(), difference);
  if (std::any_of(places.begin(), places.end(), [&](const BitPlace& place) {
        return holds_with_flipped(check, image, covered[place.byte], place.bit);
      }))
    return true;
  // Or it is one of the stored bits.
  if (!std::has_single_bit(difference)) return false;
  const auto bit = static_cast<unsigned>(std::countr_zero(difference));
  const bool in_second = (bit < 8) == (check.order == Order::high_first);
  const auto at = static_cast<Address>(check.stored_at + (in_second ? 1 : 0));
  return holds_with_flipped(check, image, at, bit % 8);
}

bool has_conditions(const Check& check) {
  return check.when || std::any_of(check.over.begin(), check.over.end(),
                                   [](const Covered& covered) { return covered.when.has_value(); });
}

bool one_bit_explains(const CheckResult& result, const Image& image) {
  const Check& check = *result.check;
  if (std::holds_alternative<CrcRule>(check.rule) && !has_conditions(check))
    return one_bit_explains_crc(result, image);
  for (const Address at : all_addresses(check))
    for (unsigned bit = 0; bit < 8; ++bit)
      if (holds_with_flipped(check, image, at, bit)) return true;
  return false;
}

/// How unlikely it is by chance, in bits, that so small a damage explains a failed check: 0 when
/// none does.
double near_miss(const CheckResult& result, const Image& image) {
  const Check& check = *result.check;
  // Any changed byte explains an 8-bit check; and 0000 or FFFF was most likely never written.
  if (width(check) != 16 || *result.stored == 0x0000 || *result.stored == 0xFFFF) return 0;
  const auto* sum = std::get_if<SumRule>(&check.rule);
  if (sum != nullptr && !sum->pairs) return near_miss_of_sum(result);
  if (!one_bit_explains(result, image)) return 0;
  return 16 - std::log2(8.0 * static_cast<double>(all_addresses(check).size()));
}

/// What near_miss() could come to at most.
double most_of_near_miss(const Check& check) {
  if (width(check) != 16) return 0;
  const auto* sum = std::get_if<SumRule>(&check.rule);
  if (sum != nullptr && !sum->pairs) return one_bit;
  double bytes = 2;
  for (const Covered& covered : check.over) bytes += static_cast<double>(covered.range.size());
  return 16 - std::log2(8 * bytes);
}

bool holds_in_other_order(const CheckResult& result) {
  if (width(*result.check) != 16) return false;
  const unsigned stored = *result.stored;
  const unsigned turned = (stored << 8 | stored >> 8) & 0xFFFFU;
  return turned == *result.computed;
}

/// What one check says.
enum class CheckState { holds, silent, damaged, ruined };

struct Word {
  CheckState state;
  double bits;
  const char* why;
};

Word word_of_blank(const CheckResult& result) {
  if (*result.stored != *result.computed)
    return {CheckState::ruined, ruined_check, " fails, over nothing but equal bytes"};
  return {CheckState::silent, empty_area, " proves nothing: it covers nothing but equal bytes"};
}

Word word_of_failure(const CheckResult& result, const Image& image, bool proven) {
  if (holds_in_other_order(result))
    return {CheckState::damaged, other_order, " holds with its two bytes in the other order"};
  const double unlikely = near_miss(result, image);
  // Where another check holds, a simpler layout may be the right one, and each of its variants gets
  // a chance to be missed nearly: only one flipped bit is rare enough then.
  if (unlikely > (proven ? one_byte : 0))
    return {CheckState::damaged, small_damage + unlikely, " fails by what one slip would do"};
  return {CheckState::ruined, ruined_check, " fails"};
}

Word word_of(const CheckResult& result, const Image& image, bool proven) {
  if (!result.unknown.empty()) return {CheckState::silent, 0, " cannot be judged"};
  if (result.blank) return word_of_blank(result);
  if (result.ok()) return {CheckState::holds, static_cast<double>(width(*result.check)), " holds"};
  return word_of_failure(result, image, proven);
}

/// How many of the codes that the bits of a number or choice can hold are legal.
double legal_codes(const Field& field) {
  const double all = std::exp2(bit_count(field));
  if (field.meaning == Meaning::choice) return static_cast<double>(field.choices.size());
  if (!field.least)
    return field.meaning == Meaning::bcd ? std::pow(10.0, bit_count(field) / 4) : all;
  const auto values = (*field.most - *field.least) / std::max<std::int64_t>(field.scale, 1) + 1;
  return static_cast<double>(values) + (field.escape ? 1 : 0);
}

/// Bits that are neither all 0 nor all 1.
bool says_something(const FieldReading& reading) {
  if (is_long(*reading.field)) {
    const auto* digits = std::get_if<std::string>(&reading.value);
    return digits != nullptr && digits->find_first_not_of('0') != std::string::npos &&
           digits->find_first_not_of('F') != std::string::npos;
  }
  const std::uint64_t ones = (std::uint64_t{1} << bit_count(*reading.field)) - 1;
  return reading.raw != 0 && reading.raw != ones;
}

/// A wide field that holds just the layout's default.
bool is_as_delivered(const FieldReading& reading) {
  const Field& field = *reading.field;
  return bit_count(field) >= most_for_a_field &&
         !std::holds_alternative<std::monostate>(field.preset) && reading.value == field.preset;
}

double evidence_of_value(const FieldReading& reading) {
  if (!reading.legal) return illegal_field;
  if (!says_something(reading)) return 0;
  if (is_as_delivered(reading)) return most_for_a_field;
  if (is_long(*reading.field)) return 0;
  const double bits = bit_count(*reading.field) - std::log2(legal_codes(*reading.field));
  return std::clamp(bits, 0.0, most_for_a_field);
}

/// Whether the field is a copy of another, and a check that holds proves both.
bool is_proven_copy(const Field& field, const Layout& layout, const Image& image) {
  const auto proving = checks_proving(field, layout);
  return std::any_of(proving.begin(), proving.end(),
                     [&](std::size_t check) { return evaluate(layout.checks[check], image).ok(); });
}

double evidence_of_relation(const FieldReading& reading, const Layout& layout, const Image& image) {
  const auto expected = expected_value(*reading.field, layout, image);
  if (!expected) return 0;
  if (reading.value != *expected)
    return is_proven_copy(*reading.field, layout, image) ? broken_copy : broken_relation;
  if (!says_something(reading)) return 0;
  return std::min<double>(bit_count(*reading.field), most_for_a_field);
}

bool any_holds(std::span<const CheckResult> results) {
  return std::any_of(results.begin(), results.end(),
                     [](const CheckResult& result) { return result.counts && result.ok(); });
}

}  // namespace

CheckEvidence evidence_of_checks(const Layout& layout, const Image& image) {
  std::vector<CheckResult> results;
  for (const Check& check : layout.checks) results.push_back(evaluate(check, image));
  const CheckWeight weight = weigh_checks(results, image);
  CheckEvidence all{weight.bits, {}, weight.damaged};
  const bool proven = any_holds(results);
  for (const CheckResult& result : results)
    if (result.counts) all.why.push_back(result.check->id + word_of(result, image, proven).why);
  if (layout.checks.empty()) all.why.emplace_back("no check to judge by");
  return all;
}

double most_bits_of_checks(std::span<const CheckResult> results) {
  double most = 0;
  for (const CheckResult& result : results) {
    if (!result.counts || !result.unknown.empty() || result.blank) continue;
    if (result.ok())
      most += width(*result.check);
    else
      most += holds_in_other_order(result) ? other_order
                                           : small_damage + most_of_near_miss(*result.check);
  }
  return most;
}

CheckWeight weigh_checks(std::span<const CheckResult> results, const Image& image) {
  const bool proven = any_holds(results);
  CheckWeight all;
  bool ruined = false;
  all.proven = std::any_of(results.begin(), results.end(), [](const CheckResult& result) {
    return result.counts && result.ok() && width(*result.check) == 16;
  });
  for (const CheckResult& result : results) {
    if (!result.counts) continue;
    const Word word = word_of(result, image, proven);
    all.bits += word.bits;
    ruined = ruined || word.state == CheckState::ruined;
    all.damaged = all.damaged || word.state == CheckState::damaged;
  }
  // A layout is all of its checks. One that holds may belong to a simpler layout, and is no credit
  // to this one when another lies in ruins.
  if (ruined) all.bits = std::min(all.bits, ruined_check);
  all.proven = all.proven && !ruined;
  return all;
}

double bits_of_field(const Field& field, const Layout& layout, const Image& image) {
  const FieldReading reading = read_value(field, image);
  if (!reading.known || !reading.in_use) return 0;
  return evidence_of_value(reading) + evidence_of_relation(reading, layout, image);
}

bool one_slip_explains(const CheckResult& failed, const Image& image) {
  return near_miss(failed, image) >= one_bit;
}

double most_bits_of_field(const Field& field) {
  double most = 0;
  if (!std::holds_alternative<std::monostate>(field.preset) && bit_count(field) >= most_for_a_field)
    most = most_for_a_field;
  else if (!is_long(field))
    most = std::clamp(bit_count(field) - std::log2(legal_codes(field)), 0.0, most_for_a_field);
  if (field.follows) most += std::min<double>(bit_count(field), most_for_a_field);
  return most;
}

bool can_be_evidence(const Field& field) {
  // An illegal value speaks against its layout, so whatever can be illegal is evidence.
  if (field.follows || field.escape || field.least) return true;
  if (field.meaning == Meaning::flag) return false;
  if (field.meaning == Meaning::text || field.meaning == Meaning::bcd) return true;
  const bool has_other_codes = field.meaning == Meaning::choice &&
                               field.choices.size() != std::size_t{1} << bit_count(field);
  return has_other_codes || most_bits_of_field(field) > 0;
}

Evidence evidence_of_fields(const Layout& layout, const Image& image) {
  Evidence all;
  std::size_t legal = 0, illegal = 0, broken = 0;
  for (const Field& field : layout.fields) {
    const FieldReading reading = read_value(field, image);
    if (!reading.known || !reading.in_use) continue;
    const double relation = evidence_of_relation(reading, layout, image);
    all.bits += evidence_of_value(reading) + relation;
    ++(reading.legal ? legal : illegal);
    if (relation < 0) ++broken;
  }
  if (legal + illegal > 0)
    all.why.push_back(
        fmt::format("{} {} sense", legal, legal == 1 ? "field makes" : "fields make"));
  if (illegal > 0)
    all.why.push_back(fmt::format("{} {} not", illegal, illegal == 1 ? "does" : "do"));
  if (broken > 0)
    all.why.push_back(
        fmt::format("{} {} others", broken, broken == 1 ? "contradicts" : "contradict"));
  return all;
}

Evidence evidence_of_chip(const Image& image) {
  if (!image.known(reg::d) || !image.known(reg::b)) return {};
  const double bits = std::clamp(chip_credence(image), least_for_a_chip, most_for_a_chip);
  return {bits,
          {bits > 0 ? "clock and registers make sense" : "clock and registers make no sense"}};
}

}  // namespace rtcmend
