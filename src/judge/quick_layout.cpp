#include "judge/quick_layout.h"

#include <algorithm>

#include "chip/clock_bytes.h"
#include "chip/registers.h"
#include "judge/examine.h"
#include "judge/findings.h"
#include "judge/relations.h"

namespace rtcmend {

namespace {

bool has_conditions(const Check& check) {
  return check.when || std::any_of(check.over.begin(), check.over.end(),
                                   [](const Covered& covered) { return covered.when.has_value(); });
}

/// What a check contributes to the findings' ids, in three bits.
std::uint64_t outcome(const CheckResult& result) {
  return std::uint64_t{result.counts} | std::uint64_t{result.blank} << 1 |
         std::uint64_t{result.stored == result.computed} << 2;
}

/// A number any of whose codes is legal, and that follows nothing.
bool is_free_number(const Field& field) {
  return field.meaning == Meaning::number && !field.least && !field.most && !field.escape &&
         !field.follows && field.id != "century";
}

bool is_whole_number(const Field& field) {
  return field.meaning == Meaning::number && !field.escape && !field.when &&
         field.bits.size() <= RestingPlaces::most &&
         std::all_of(field.bits.begin(), field.bits.end(),
                     [](const BitSlice& slice) { return slice.mask() == 0xFF; });
}

/// The field that this one is a plain copy of, null when it is none.
const Field* original_of(const Field& field, const Layout& layout) {
  if (!field.follows || field.follows->how != Follows::How::same) return nullptr;
  const Field& original = layout.need_field(field.follows->of.front());
  const bool alike = is_whole_number(field) && is_whole_number(original) &&
                     field.bits.size() == original.bits.size() && field.scale == original.scale &&
                     field.offset == original.offset && !field.least && !field.most;
  return alike ? &original : nullptr;
}

/// Where a number's bytes stand, in its own order.
RestingPlaces bytes_of(const Field& field) {
  Addresses at;
  for (const BitSlice& slice : field.bits) at.push_back(slice.at);
  return RestingPlaces(at);
}

/// The time as such is not part of a date's findings: only whether there is one that a date could
/// belong to.
Image at_noon_or_never(const Image& image, bool time_is_legal) {
  Image dated = image;
  const std::uint8_t noon = 0x12, midnight = 0x00, never = 0xFF;
  const RegisterB b = decode_b(image[reg::b]);
  const std::uint8_t noon_or_midnight = b.hours_24 ? midnight : b.binary ? std::uint8_t{12} : noon;
  dated.set(reg::seconds, 0);
  dated.set(reg::minutes, 0);
  dated.set(reg::hours, time_is_legal ? noon_or_midnight : never);
  for (const Address at : {reg::seconds_alarm, reg::minutes_alarm, reg::hours_alarm})
    dated.forget(at);
  return dated;
}

constexpr std::size_t most_checks = 20;  // three bits each in a word

}  // namespace

bool says_nothing(const Field& field) {
  const bool any_will_do = field.meaning == Meaning::bytes || field.meaning == Meaning::concealed;
  return any_will_do && !field.follows && std::holds_alternative<std::monostate>(field.preset);
}

QuickLayout::QuickLayout(const Layout& layout, FindingNames& names)
    : layout_(layout),
      names_(names),
      date_places_({reg::b, reg::weekday, reg::day, reg::month, reg::year}),
      year_places_({reg::b, reg::year}) {
  for (const Field& field : layout.fields) prepare(field);
  // Without a check the RAM itself is looked at; under a condition other bytes have a say.
  checks_by_results_ = !layout.checks.empty() && layout.checks.size() <= most_checks &&
                       std::none_of(layout.checks.begin(), layout.checks.end(), has_conditions);
  date_layout_.id = layout.id;
  date_layout_.size = layout.size;
  if (const Field* century = layout.field("century")) {
    century_places_ = places_of_field(*century, layout);
    date_layout_.fields = {*century};
  }
}

void QuickLayout::prepare(const Field& field) {
  if (says_nothing(field) || is_free_number(field)) return;
  if (const Field* original = original_of(field, layout_))
    copies_.push_back({&field, bytes_of(field), bytes_of(*original)});
  else if (const auto places = places_of_field(field, layout_))
    parts_.push_back({&field, ImageRecall<FindingSet>(*places, 13)});
  else
    wide_.push_back(&field);
}

// The findings' texts would want the words of a reading; their ids do not.

FindingSet QuickLayout::ask_relation(const Field& field, const Image& image) {
  const FieldReading reading = read_value(field, image);
  if (!breaks_relation(reading, layout_, image)) return {};
  if (!broken_relation_)
    broken_relation_ = names_.set_of(relation_findings({reading}, layout_, image));
  return *broken_relation_;
}

FindingSet QuickLayout::ask_field(const Field& field, const Image& image) {
  FindingSet found = names_.set_of(field_findings({read_value(field, image)}, image));
  if (field.follows) found |= ask_relation(field, image);
  return found;
}

FindingSet QuickLayout::ask_checks(const Image& image) {
  return names_.set_of(check_findings(evaluate_all(layout_, image), image));
}

FindingSet QuickLayout::findings_of_date(const Image& dated) {
  const ClockReading clock = judge_clock(dated, century_in(date_layout_, dated));
  FindingSet found = names_.set_of(clock_findings(clock, dated));
  found |= names_.set_of(century_findings(clock, date_layout_, dated));
  return found;
}

FindingSet QuickLayout::ask_date(const Image& image, bool time_is_legal) {
  return findings_of_date(at_noon_or_never(image, time_is_legal));
}

QuickLayout::Year QuickLayout::ask_year(const Image& image, bool time_is_legal) {
  Image dated = at_noon_or_never(image, time_is_legal);
  dated.set(reg::day, 1);
  dated.set(reg::month, 1);
  const ClockReading clock = judge_clock(dated, century_in(date_layout_, dated));
  if (!clock.time) return {};
  const int year = clock.time->year;
  dated.set(reg::weekday, static_cast<std::uint8_t>(weekday_of(year, 1, 1)));
  return {findings_of_date(dated), year};
}

/// Most dates exist and have the right weekday: then the year says all. The others are remembered
/// one by one.
FindingSet QuickLayout::of_date(const Image& image, bool time_is_legal) {
  auto key = std::uint64_t{time_is_legal};
  if (century_places_) {
    if (century_places_->count() > 2) return ask_date(image, time_is_legal);
    key = key << 16 | century_places_->key(image);
  }
  const Year& year =
      years_(key << 16 | year_places_.key(image), [&] { return ask_year(image, time_is_legal); });
  const bool binary = decode_b(image[reg::b]).binary;
  const auto month = number_in({reg::month, "month", 1, 12}, image[reg::month], binary);
  if (year.year && month) {
    const int days = days_in_month(*year.year, *month);
    const auto day = number_in({reg::day, "day", 1, days}, image[reg::day], binary);
    const auto weekday = number_in({reg::weekday, "weekday", 1, 7}, image[reg::weekday], binary);
    if (day && weekday && *weekday == weekday_of(*year.year, *month, *day)) return year.findings;
  }
  return dates_(key << 40 | date_places_.key(image),
                [&] { return ask_date(image, time_is_legal); });
}

FindingSet QuickLayout::of_checks(const Image& image, std::span<const CheckResult> checks) {
  if (!checks_by_results_) return ask_checks(image);
  std::uint64_t key = 0;
  for (const CheckResult& result : checks) key = key << 3 | outcome(result);
  return checks_(key, [&] { return ask_checks(image); });
}

FindingSet QuickLayout::operator()(const Image& image, const QuickClock::Answer& clock,
                                   std::span<const CheckResult> checks) {
  FindingSet found = clock.findings;
  found |= of_checks(image, checks);
  found |= of_date(image, clock.time_is_legal);
  for (Part& part : parts_)
    found |= part.recall(image, [&] { return ask_field(*part.field, image); });
  for (Copy& copy : copies_) {
    const bool same = copy.own.key(image) == copy.original.key(image);
    found |= copy.recall(std::uint64_t{same}, [&] { return ask_relation(*copy.field, image); });
  }
  for (const Field* field : wide_) found |= ask_field(*field, image);
  return found;
}

}  // namespace rtcmend
