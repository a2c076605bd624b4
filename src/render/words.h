#pragma once

#include <string>
#include <vector>

#include "chip/clock.h"
#include "forms/form.h"
#include "judge/finding.h"

namespace rtcmend {

/// "sound", or "not sound: 2 faults, 1 doubt".
std::string verdict(bool sound, const std::vector<Finding>& findings);
/// Form, size and what is missing: "raw, 64 bytes; 14 of them unknown (00-0D)".
std::string dump_words(const Dump& dump);
/// Date, time and how the clock runs: "2031-05-14 09:30:00, Wednesday; running".
std::string clock_words(const ClockReading& clock);

}  // namespace rtcmend
