#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/image.h"
#include "chip/clock.h"

namespace rtcmend {

/// What the chip's clock showed, and what a good clock showed at that moment.
struct ClockSample {
  DateTime shown;
  DateTime reference;
  bool daylight_saving = false;  ///< DSE was on (register B)
  std::optional<bool> running;   ///< nothing when the registers are not known
};

/// Something other than drift that happened between two samples.
struct ClockEvent {
  enum class Kind { reset, stopped, ran_backwards, daylight_saving, month_length, century, jump };
  Kind kind;
  std::size_t after = 0;  ///< index of the sample it was first seen in
  long long seconds = 0;  ///< by how much the clock jumped; 0 where that means nothing
  std::string text;       ///< in plain words, with what to do
};

/// How the rate stands against what a potted module may do.
enum class DriftVerdict {
  within,
  at_the_limit,  ///< the uncertainty reaches over the limit
  outside,
  too_close,  ///< the readings lie too close together to tell
  no_stretch  ///< what happened leaves no two readings to measure between
};

/// How a clock gains or loses. Positive = it runs fast.
struct Drift {
  std::optional<double> ppm;  ///< nothing when an event leaves no stretch to measure
  double seconds_per_day = 0;
  double seconds_per_month = 0;  ///< 30 days
  double ppm_uncertainty = 0;    ///< plus or minus, from reading whole seconds
  bool tells_something = false;  ///< the uncertainty is smaller than the module's own specification
  DriftVerdict verdict = DriftVerdict::no_stretch;
  std::vector<ClockEvent> events;
  std::vector<ClockSample> samples;  ///< in the order of their reference times
};

/// Seconds by which the clock was ahead of the reference; negative = behind.
long long ahead(const ClockSample& sample);

/// A potted module keeps time within a minute a month at 25 C (DS12885).
inline constexpr double module_seconds_per_month = 60;
inline constexpr double seconds_in_month = 30.0 * 86'400;
inline constexpr double module_ppm = module_seconds_per_month / seconds_in_month * 1e6;

/// How a rate stands against module_ppm; both in millionths, the uncertainty plus or minus. Never
/// no_stretch.
DriftVerdict verdict_on_rate(double ppm, double uncertainty);

/// Least squares over the samples, in order of their reference times; jumps that can be explained
/// are taken out first and reported. Refuses (Error) fewer than two samples and two at the same
/// moment.
Drift drift(std::vector<ClockSample> samples);

/// How long two readings must lie apart before their uncertainty is below `ppm`, in days.
double days_needed(double ppm);

}  // namespace rtcmend
