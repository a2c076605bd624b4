#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "upkeep/drift.h"

namespace rtcmend {

/// A log of clock readings: one JSON object a line,
/// {"shown":"2031-05-31T12:01:00","reference":"2031-05-31T12:00:00","daylight_saving":false,
/// "running":true}. Empty lines are skipped. Refuses (Error) a line that is not one, by its number.
std::vector<ClockSample> parse_drift_log(std::string_view text, const std::string& where);

/// One line, without its end.
std::string drift_log_line(const ClockSample& sample);

/// Those of `more` that the log does not hold yet, in their order.
std::vector<ClockSample> not_logged_yet(const std::vector<ClockSample>& logged,
                                        const std::vector<ClockSample>& more);

}  // namespace rtcmend
