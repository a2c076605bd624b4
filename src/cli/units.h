#pragma once

#include <string>

#include "chip/calendar.h"

namespace rtcmend {

/// "500nA", "0.5 uA": microamperes. Refuses (Error) a number without its unit, and what is none;
/// `where` is the option, here and below.
double parse_microamps(const std::string& text, const std::string& where);
/// "225", "225mAh": milliampere hours.
double parse_milliamp_hours(const std::string& text, const std::string& where);
/// "3", "3V": volts.
double parse_volts(const std::string& text, const std::string& where);
/// "25", "25C", "-5": degrees Celsius.
double parse_celsius(const std::string& text, const std::string& where);
/// "0.3", "30%": a share of the whole. Refuses what is not between 0 and 1.
double parse_share(const std::string& text, const std::string& where);
/// "30m", "2h", "90s", "7d": seconds. Refuses (Error) nothing, less than nothing, and over ten
/// years.
long long parse_duration(const std::string& text, const std::string& where);
/// "2031-05-14", or what parse_clock takes.
DateTime parse_day(const std::string& text, const std::string& where);

}  // namespace rtcmend
