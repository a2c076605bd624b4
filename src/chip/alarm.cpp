#include <fmt/format.h>

#include "chip/clock.h"

namespace rtcmend {

namespace {

bool fixed(const AlarmPart& part) {
  return part.value.has_value();
}

bool says_something(const AlarmPart& part) {
  return part.any || fixed(part);
}

std::string within_an_hour(const ClockReading& reading) {
  const int hour = *reading.alarm_hours.value;
  if (fixed(reading.alarm_seconds))
    return fmt::format("every minute from {:02}:00 to {:02}:59, at second {}", hour, hour,
                       *reading.alarm_seconds.value);
  return fmt::format("every second from {:02}:00:00 to {:02}:59:59", hour, hour);
}

std::string within_a_minute(const ClockReading& reading) {
  const int hour = *reading.alarm_hours.value, minute = *reading.alarm_minutes.value;
  if (fixed(reading.alarm_seconds))
    return fmt::format("at {:02}:{:02}:{:02}", hour, minute, *reading.alarm_seconds.value);
  return fmt::format("every second from {:02}:{:02}:00 to {:02}:{:02}:59", hour, minute, hour,
                     minute);
}

std::string within_every_hour(const ClockReading& reading) {
  const int minute = *reading.alarm_minutes.value;
  if (fixed(reading.alarm_seconds))
    return fmt::format("every hour, at minute {}, second {}", minute, *reading.alarm_seconds.value);
  return fmt::format("every hour, every second of minute {}", minute);
}

}  // namespace

// The chip compares each byte that is not a don't-care code with the time (DS12885).
std::string describe_alarm(const ClockReading& reading) {
  if (!reading.alarm_faults.empty()) return "not legal";
  const bool complete = says_something(reading.alarm_hours) &&
                        says_something(reading.alarm_minutes) &&
                        says_something(reading.alarm_seconds);
  if (!complete) return "unknown";

  if (fixed(reading.alarm_hours))
    return fixed(reading.alarm_minutes) ? within_a_minute(reading) : within_an_hour(reading);
  if (fixed(reading.alarm_minutes)) return within_every_hour(reading);
  if (fixed(reading.alarm_seconds))
    return fmt::format("every minute, at second {}", *reading.alarm_seconds.value);
  return "every second";
}

}  // namespace rtcmend
