#include "terminal/drift.h"

#include <cmath>
#include <cstdlib>
#include <fmt/format.h>

#include "terminal/columns.h"

namespace rtcmend {

namespace {

std::string spoken(const DateTime& time) {
  std::string text = to_iso(time);
  text[10] = ' ';
  return text;
}

/// "30.0 days", "1.0 hours".
std::string span_of(const Drift& drift) {
  const long long seconds = seconds_since_1980(drift.samples.back().reference) -
                            seconds_since_1980(drift.samples.front().reference);
  const double days = static_cast<double>(seconds) / 86'400;
  return days < 2 ? fmt::format("{:.1f} hours", days * 24) : fmt::format("{:.1f} days", days);
}

std::string ahead_words(long long seconds) {
  if (seconds == 0) return "the clock agrees with the good one";
  return fmt::format("the clock is {} s {}", std::llabs(seconds), seconds > 0 ? "ahead" : "behind");
}

std::string rate_text(const Drift& drift) {
  const double rate = *drift.ppm;
  return fmt::format(
      "The clock {} {:.2f} s a day, {:.0f} s in 30 days: {:+.1f} ppm, give or take "
      "{:.1f}.",
      rate < 0 ? "loses" : "gains", std::abs(drift.seconds_per_day),
      std::abs(drift.seconds_per_month), rate, drift.ppm_uncertainty);
}

std::string verdict_text(const Drift& drift) {
  const std::string limit = fmt::format(
      "a potted module may be off by one minute in 30 days ({:.1f} ppm; DS12885, at 25 C)",
      module_ppm);
  switch (drift.verdict) {
    case DriftVerdict::within:
      return "Within its limits: " + limit + ".";
    case DriftVerdict::at_the_limit:
      return "Just at the limit: " + limit + ".";
    case DriftVerdict::outside:
      return "Outside its limits: " + limit +
             ". A crystal far from 25 C, a cell near its end or a crystal with wrong load "
             "capacitors does that.";
    case DriftVerdict::too_close:
      return fmt::format(
          "Too close together to tell anything: two readings in whole seconds tell the rate to "
          "{:.0f} ppm only, and {}. A day apart is the least that tells anything; ten days tell it "
          "to "
          "a tenth of the limit.",
          drift.ppm_uncertainty, limit);
    case DriftVerdict::no_stretch:
      break;
  }
  return "No rate can be told: what happened leaves no two readings to measure between. Set the "
         "clock, and read it twice more.";
}

std::string events_text(const Drift& drift, const Ink& ink) {
  if (drift.events.empty()) return {};
  std::string text = "\n" + ink(Tone::strong, "Noticed") + "\n";
  for (const ClockEvent& event : drift.events)
    text += fmt::format("  reading {:<3}{}\n", event.after + 1, hanging(event.text, 13));
  return text;
}

std::string readings_text(const Drift& drift, const Ink& ink) {
  std::string text = "\n" + ink(Tone::strong, "Readings, over " + span_of(drift)) +
                     "\n       a good clock         the chip             ahead by\n";
  std::size_t number = 1;
  for (const ClockSample& sample : drift.samples)
    text += fmt::format("  {:>3}  {}  {}  {:+} s\n", number++, spoken(sample.reference),
                        spoken(sample.shown), ahead(sample));
  return text;
}

Tone tone_of(DriftVerdict verdict) {
  if (verdict == DriftVerdict::within) return Tone::good;
  return verdict == DriftVerdict::at_the_limit ? Tone::doubtful : Tone::bad;
}

}  // namespace

std::string drift_text(const Drift& drift, const Ink& ink) {
  std::string text;
  if (drift.ppm) text = hanging(rate_text(drift), 0) + "\n";
  text += ink(tone_of(drift.verdict), hanging(verdict_text(drift), 0)) + "\n";
  return text + events_text(drift, ink) + readings_text(drift, ink);
}

std::string first_reading_text(const ClockSample& sample) {
  return hanging(
             fmt::format(
                 "First reading noted: {}. Read it again in ten days, with the same --log; a day "
                 "is the least that tells anything.",
                 ahead_words(ahead(sample))),
             0) +
         "\n";
}

}  // namespace rtcmend
