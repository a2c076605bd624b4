#include "audit/quick_date.h"

#include "chip/clock.h"
#include "chip/clock_bytes.h"
#include "chip/registers.h"
#include "judge/findings.h"

namespace rtcmend {

namespace {

/// The time as such is not part of a date's findings: only whether there is one that a date could
/// belong to. Where there is none, the hours are not known.
Image at_noon_or_never(const Image& image, bool time_is_legal) {
  Image dated = image;
  const std::uint8_t noon = 0x12, midnight = 0x00;
  const RegisterB b = decode_b(image[reg::b]);
  const std::uint8_t noon_or_midnight = b.hours_24 ? midnight : b.binary ? std::uint8_t{12} : noon;
  dated.set(reg::seconds, 0);
  dated.set(reg::minutes, 0);
  if (time_is_legal)
    dated.set(reg::hours, noon_or_midnight);
  else
    dated.forget(reg::hours);
  for (const Address at : {reg::seconds_alarm, reg::minutes_alarm, reg::hours_alarm})
    dated.forget(at);
  return dated;
}

}  // namespace

QuickDate::QuickDate(const Layout& layout)
    : date_bits_({reg::b, reg::weekday, reg::day, reg::month, reg::year}),
      year_bits_({reg::b, reg::year}) {
  layout_.size = layout.size;
  if (const Field* century = layout.field("century")) {
    century_bits_ = bits_that_decide(*century, layout);
    layout_.fields = {*century};
  }
}

bool QuickDate::is_for(const Layout& layout) const {
  const Field* century = layout.field("century");
  if (century == nullptr || layout_.fields.empty())
    return century == nullptr && layout_.fields.empty();
  return *century == layout_.fields.front();
}

FindingSet QuickDate::findings_of(const Image& dated) {
  ClockReading clock = judge_clock(dated, century_in(layout_, dated));
  clock.known = true;  // that bytes are missing is at_noon_or_never()'s doing
  FindingSet found = set_of(clock_findings(clock, dated));
  found |= set_of(century_findings(clock, layout_, dated));
  return found;
}

FindingSet QuickDate::ask_date(const Image& image, bool time_is_legal) {
  return findings_of(at_noon_or_never(image, time_is_legal));
}

QuickDate::Year QuickDate::ask_year(const Image& image, bool time_is_legal) {
  Image dated = at_noon_or_never(image, time_is_legal);
  dated.set(reg::day, 1);
  dated.set(reg::month, 1);
  const ClockReading clock = judge_clock(dated, century_in(layout_, dated));
  if (!clock.time) return {};
  const int year = clock.time->year;
  dated.set(reg::weekday, static_cast<std::uint8_t>(weekday_of(year, 1, 1)));
  return {findings_of(dated), year};
}

/// Most dates exist and have the right weekday: then the year says all. The others are remembered
/// one by one.
FindingSet QuickDate::operator()(const Image& image, bool time_is_legal) {
  auto key = std::uint64_t{time_is_legal};
  if (century_bits_) {
    if (century_bits_->width() > 16) return ask_date(image, time_is_legal);
    key = key << 16 | century_bits_->key(image);
  }
  const Year& year =
      years_(key << 16 | year_bits_.key(image), [&] { return ask_year(image, time_is_legal); });
  const bool binary = decode_b(image[reg::b]).binary;
  const auto month = number_in({reg::month, "month", 1, 12}, image[reg::month], binary);
  if (year.year && month) {
    const int days = days_in_month(*year.year, *month);
    const auto day = number_in({reg::day, "day", 1, days}, image[reg::day], binary);
    const auto weekday = number_in({reg::weekday, "weekday", 1, 7}, image[reg::weekday], binary);
    if (day && weekday && *weekday == weekday_of(*year.year, *month, *day)) return year.findings;
  }
  return dates_(key << 40 | date_bits_.key(image), [&] { return ask_date(image, time_is_legal); });
}

}  // namespace rtcmend
