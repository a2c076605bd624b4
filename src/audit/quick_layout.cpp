#include "audit/quick_layout.h"

#include <algorithm>

#include "audit/quick_clock.h"
#include "judge/examine.h"
#include "judge/findings.h"

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

constexpr std::size_t most_checks = 20;  // three bits each in a word

bool is_vouched(const Field& field, std::span<const CheckResult> checks) {
  const auto results = taken_together({checks.begin(), checks.end()});
  return std::any_of(results.begin(), results.end(),
                     [&](const CheckResult& result) { return vouches(result, field); });
}

}  // namespace

QuickLayout::QuickLayout(const Layout& layout, QuickFields& fields, QuickDate& date)
    : layout_(layout), fields_(fields), date_(date) {
  for (const Field& field : layout.fields)
    if (const auto number = fields.prepare(field, layout)) own_fields_.push_back({*number, &field});
  for (const Addresses& bytes : machine_bytes(layout)) {
    machine_by_bytes_ = machine_by_bytes_ && bytes.size() <= DecidingBits::most_bytes;
    if (!machine_by_bytes_) break;
    const DecidingBits bits(bytes);
    of_machine_.push_back({bytes, bits, Recall<FindingSet>(bits.width(), 13)});
  }
  // Without a check the RAM itself is looked at; under a condition other bytes have a say.
  checks_by_results_ = !layout.checks.empty() && layout.checks.size() <= most_checks &&
                       std::none_of(layout.checks.begin(), layout.checks.end(), has_conditions);
}

FindingSet QuickLayout::ask_checks(const Image& image) {
  return set_of(check_findings(evaluate_all(layout_, image), image));
}

FindingSet QuickLayout::of_checks(const Image& image, std::span<const CheckResult> checks) {
  if (!checks_by_results_) return ask_checks(image);
  std::uint64_t key = 0;
  for (const CheckResult& result : checks) key = key << 3 | outcome(result);
  return checks_(key, [&] { return ask_checks(image); });
}

FindingSet QuickLayout::of_machine(const Image& image) {
  if (!machine_by_bytes_) return set_of(machine_findings(layout_, image));
  FindingSet found;
  for (OfMachine& one : of_machine_)
    found |= one.recall(one.bits.key(image), [&] {
      return set_of(machine_findings(layout_, only_known(image, one.bytes)));
    });
  return found;
}

FindingSet QuickLayout::of_family(Family family, const Image& image,
                                  const QuickClock::Answer& clock,
                                  std::span<const CheckResult> checks) {
  switch (family) {
    case Family::reading:  // a dump that may have been misread is not judged here
    case Family::part:     // an audit names no part
      return {};
    case Family::chip:
      return clock.findings;  // those of the time among them
    case Family::clock: {
      FindingSet found = date_(image, clock.time_is_legal);
      found |= set_of(mode_findings(layout_, image));
      return found;
    }
    case Family::settings:
      break;
  }
  FindingSet found = of_checks(image, checks);
  for (const Own& own : own_fields_) {
    FindingSet of_field = fields_(own.number, image);
    if (of_field.has(FindingKind::field_illegal) && is_vouched(*own.field, checks)) {
      of_field.remove(FindingKind::field_illegal);
      of_field.add(kind_of_illegal(read_value(*own.field, image), true));
    }
    found |= of_field;
  }
  if (!found.has(FindingKind::blank)) found |= of_machine(image);
  return found;
}

FindingSet QuickLayout::operator()(const Image& image, const QuickClock::Answer& clock,
                                   std::span<const CheckResult> checks) {
  FindingSet found;
  for (const Family family : all_families) found |= of_family(family, image, clock, checks);
  return found;
}

}  // namespace rtcmend
