#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/image.h"

namespace rtcmend {

/// A date and time of day, as on the wall; no time zone.
struct DateTime {
  int year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0;
  friend auto operator<=>(const DateTime&, const DateTime&) = default;
};

/// Reads "2031-05-14T09:30:00" (a blank for the T, and no seconds, are accepted). Nothing when it is
/// not a date and time that exists between 1980 and 2099.
std::optional<DateTime> parse_iso(std::string_view text);
std::string to_iso(const DateTime& time);
/// 1 = Sunday to 7 = Saturday, the chip's own counting.
int weekday_of(int year, int month, int day);
std::string_view weekday_name(int weekday);
int days_in_month(int year, int month);
/// Seconds since 1980-01-01T00:00:00 and back.
long long seconds_since_1980(const DateTime& time);
DateTime from_seconds_since_1980(long long seconds);

/// How the clock bytes are written down (register B).
struct ClockMode {
  bool binary = false;    ///< DM: binary instead of BCD
  bool hours_24 = true;   ///< otherwise bit 7 of the hours byte means PM
  friend bool operator==(const ClockMode&, const ClockMode&) = default;
};

/// A clock byte that cannot be what it says.
struct ClockFault {
  Address at;
  std::string what;  ///< "the minutes byte 7Ah is not BCD"
};

/// One alarm byte.
struct AlarmPart {
  bool any = false;          ///< a don't-care code, C0h-FFh
  std::optional<int> value;  ///< 0-59, or the hour 0-23; nothing when unknown or illegal
};

/// All that the ten clock bytes and register B say.
struct ClockReading {
  bool known = false;                ///< every byte of date and time is known
  std::optional<ClockMode> mode;     ///< nothing when register B is unknown
  std::optional<DateTime> time;      ///< only when every byte is legal and the date exists
  std::optional<int> weekday;        ///< 1-7 as stored, when legal
  bool century_assumed = false;      ///< no century byte: 80-99 taken as 19xx, 00-79 as 20xx
  std::vector<ClockFault> faults;
  AlarmPart alarm_hours, alarm_minutes, alarm_seconds;
  /// Counting, and not frozen by SET; nothing when register A or B is unknown.
  std::optional<bool> running;
};

/// century: the legal century from where the layout keeps it (19 or 20), or nothing.
ClockReading read_clock(const Image& image, std::optional<int> century);

/// "every hour, every minute", "at 06:30:00": the alarm in words; "unknown" or "not legal" else.
std::string describe_alarm(const ClockReading& reading);

/// Writes date, time and weekday in `mode` (bytes 00, 02, 04, 06-09). The alarms are left alone.
void write_clock(const DateTime& time, const ClockMode& mode, Image& image);

/// Writes the clock and makes it run: register A counting at its rate (26h when unknown), register B
/// with SET off in its mode (02h when unknown), alarms 00 when unknown.
void start_clock(const DateTime& time, Image& image);

/// Bytes whose value moves by itself while the oscillator runs.
bool ticks(Address at);

}  // namespace rtcmend
