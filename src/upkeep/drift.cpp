#include "upkeep/drift.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fmt/format.h>

#include "base/error.h"
#include "chip/calendar.h"

namespace rtcmend {

namespace {

using Kind = ClockEvent::Kind;

// Both clocks are read in whole seconds, so each reading is off by up to one, and a difference of
// two readings by up to two.
constexpr double worst_of_two_readings = 2.0;
// Two whole-second readings, each off by a flat 0 to 1 s: sqrt(2/12) s, twice over for about 95 %.
constexpr double two_sigma_of_a_reading = 2 * 0.408;
// A crystal that is off by more is no drift (common practice, no source); a few seconds are typing.
constexpr double wildest_ppm = 500;
constexpr double slack_seconds = 5;
constexpr long long hour = 3600, day = 86'400;

long long offset(const ClockSample& sample) {
  return seconds_since_1980(sample.shown) - seconds_since_1980(sample.reference);
}

bool near(long long value, long long target, double slack) {
  return std::abs(static_cast<double>(value - target)) <= slack;
}

bool crosses_month_end(const DateTime& from, const DateTime& to) {
  return from.year != to.year || from.month != to.month;
}

/// The first Sunday of April or the last of October lies between (DS12885's daylight-saving rule).
bool crosses_saving_change(const DateTime& from, const DateTime& to) {
  for (int year = from.year; year <= to.year; ++year) {
    for (const int month : {4, 10}) {
      int date = month == 4 ? 1 : 31;
      while (weekday_of(year, month, date) != 1) date += month == 4 ? 1 : -1;
      const DateTime change{year, month, date, 2, 0, 0};
      if (from < change && change <= to) return true;
    }
  }
  return false;
}

/// Where firmware sets a clock that it found without sense: 1980 or a later round year, the first
/// of January (common practice, no source). It may have run on for a month since.
bool starts_again(const DateTime& shown) {
  return shown.month == 1 && (shown.year == 1980 || shown.year == 1990 || shown.year == 2000);
}

ClockEvent event(Kind kind, std::size_t after, long long seconds, std::string text) {
  return {kind, after, seconds, std::move(text)};
}

/// What happened between two samples that is no drift; nothing when all is well.
std::optional<ClockEvent> what_happened(const ClockSample& before, const ClockSample& after,
                                        std::size_t index) {
  const long long elapsed =
      seconds_since_1980(after.reference) - seconds_since_1980(before.reference);
  const long long shown = seconds_since_1980(after.shown) - seconds_since_1980(before.shown);
  const long long jump = offset(after) - offset(before);
  const double slack = slack_seconds + static_cast<double>(elapsed) * wildest_ppm / 1e6;
  const bool saving = (before.daylight_saving || after.daylight_saving) &&
                      crosses_saving_change(before.reference, after.reference);
  // Over months, the slack for drift is wider than an hour: what lies nearer to the hour is that.
  const bool hour_explains =
      saving && near(std::llabs(jump), hour, std::min(slack, static_cast<double>(hour) / 2));
  if (near(jump, 0, slack) && !hour_explains) return std::nullopt;
  if (near(shown, 0, 1))
    return event(Kind::stopped, index, 0,
                 "the clock stood still: see whether the oscillator is on (0Ah bits 6-4 = 010) and "
                 "SET is off (0Bh bit 7), then look at the crystal and the cell");
  if (hour_explains)
    return event(Kind::daylight_saving, index, jump,
                 "the clock changed by an hour because DSE (0Bh bit 0) is on, by a rule that ended "
                 "with 2006: clear it and set the clock");
  if (std::llabs(jump) <= 3 * day + hour && crosses_month_end(before.reference, after.reference))
    for (const long long days : {1, 2, 3})
      if (near(std::llabs(jump), days * day, slack))
        return event(Kind::month_length, index, jump,
                     fmt::format("the date is {} day{} off since a month ended: the chip or the "
                                 "firmware counts that month's days wrongly; set the date again",
                                 days, days == 1 ? "" : "s"));
  const DateTime moved{after.shown.year + (jump < 0 ? 100 : -100),
                       after.shown.month,
                       after.shown.day,
                       after.shown.hour,
                       after.shown.minute,
                       after.shown.second};
  if (moved.day <= days_in_month(moved.year, moved.month) &&
      near(seconds_since_1980(moved), seconds_since_1980(before.shown) + elapsed, slack))
    return event(
        Kind::century, index, jump,
        "the century byte is a hundred years off: set the clock, and see whether the firmware "
        "keeps it over the next start");
  if (shown < 0 && starts_again(after.shown))
    return event(
        Kind::reset, index, 0,
        "the clock started again from its zero date: it lost its power in between; measure "
        "the cell");
  if (shown < 0)
    return event(Kind::ran_backwards, index, 0,
                 "the clock shows an earlier time than before: it was set, or it lost its power");
  return event(
      Kind::jump, index, jump,
      "the clock jumped by more than any crystal drifts: it was set in between, or a reading "
      "was written down wrongly");
}

/// A clock whose registers say that it does not run, seen before the readings could tell.
std::vector<ClockEvent> not_running(const std::vector<ClockSample>& samples) {
  std::vector<ClockEvent> found;
  for (std::size_t i = 0; i < samples.size(); ++i)
    if (samples[i].running && !*samples[i].running)
      found.push_back(event(Kind::stopped, i, 0,
                            "registers A and B say that this clock does not run: turn the "
                            "oscillator on (0Ah bits 6-4 = 010) and SET off (0Bh bit 7)"));
  return found;
}

bool ends_the_stretch(Kind kind) {
  return kind == Kind::reset || kind == Kind::stopped || kind == Kind::ran_backwards ||
         kind == Kind::jump;
}

/// Samples as (reference, offset) in seconds, with explained jumps taken out.
struct Point {
  double at, off;
};

void fit(const std::vector<Point>& points, Drift& result) {
  const double count = static_cast<double>(points.size());
  double mean_at = 0, mean_off = 0;
  for (const Point& point : points) {
    mean_at += point.at / count;
    mean_off += point.off / count;
  }
  double spread = 0, product = 0;
  for (const Point& point : points) {
    spread += (point.at - mean_at) * (point.at - mean_at);
    product += (point.at - mean_at) * (point.off - mean_off);
  }
  const double rate = product / spread;
  result.ppm = rate * 1e6;
  result.seconds_per_day = rate * 86'400;
  result.seconds_per_month = rate * seconds_in_month;
  result.ppm_uncertainty = points.size() == 2
                               ? worst_of_two_readings / (points[1].at - points[0].at) * 1e6
                               : two_sigma_of_a_reading / std::sqrt(spread) * 1e6;
  result.tells_something = result.ppm_uncertainty < module_ppm;
}

}  // namespace

DriftVerdict verdict_on_rate(double ppm, double uncertainty) {
  if (uncertainty >= module_ppm) return DriftVerdict::too_close;
  const double beyond = std::abs(ppm) - module_ppm;
  if (std::abs(beyond) <= uncertainty) return DriftVerdict::at_the_limit;
  return beyond < 0 ? DriftVerdict::within : DriftVerdict::outside;
}

long long ahead(const ClockSample& sample) {
  return offset(sample);
}

Drift drift(std::vector<ClockSample> samples) {
  if (samples.size() < 2)
    refuse("drift", "one reading tells no drift", "give a second one, taken a week or more later");
  std::sort(samples.begin(), samples.end(),
            [](const auto& a, const auto& b) { return a.reference < b.reference; });
  for (std::size_t i = 1; i < samples.size(); ++i)
    if (samples[i].reference == samples[i - 1].reference)
      refuse("drift", fmt::format("two readings were taken at {}", to_iso(samples[i].reference)),
             "leave one of them out");

  Drift result;
  result.events = not_running(samples);
  std::vector<Point> stretch;
  const long long start = seconds_since_1980(samples[0].reference);
  long long explained = 0;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    if (i > 0) {
      if (auto happened = what_happened(samples[i - 1], samples[i], i)) {
        // Measure on from here; what came before a reset or a setting says nothing about after it.
        if (ends_the_stretch(happened->kind)) {
          stretch.clear();
          explained = 0;
        } else {
          const long long unit = happened->kind == Kind::daylight_saving ? hour : day;
          explained +=
              (happened->seconds + (happened->seconds < 0 ? -unit : unit) / 2) / unit * unit;
        }
        result.events.push_back(std::move(*happened));
      }
    }
    stretch.push_back({static_cast<double>(seconds_since_1980(samples[i].reference) - start),
                       static_cast<double>(offset(samples[i]) - explained)});
  }
  if (stretch.size() >= 2) fit(stretch, result);
  if (result.ppm) result.verdict = verdict_on_rate(*result.ppm, result.ppm_uncertainty);
  result.samples = std::move(samples);
  return result;
}

double days_needed(double ppm) {
  return worst_of_two_readings / ppm * 1e6 / 86'400;
}

}  // namespace rtcmend
