#pragma once

#include <optional>
#include <vector>

#include "board/work.h"

namespace rtcmend {

/// How fast a clock runs against this computer's. Positive = fast.
struct ClockRate {
  double ppm = 0;
  double uncertainty = 0;  ///< plus or minus, two standard errors
  std::size_t edges = 0;   ///< ends of seconds that count
  double seconds = 0;      ///< over how long
  double jitter = 0;       ///< of their arrival, microseconds
};

/// A straight line through the ends of the seconds, by least squares; those that lie far off it
/// were held up on the way and are left out. Nothing from fewer than ten.
std::optional<ClockRate> clock_rate(const std::vector<ClockEdge>& edges);

}  // namespace rtcmend
