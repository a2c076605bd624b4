#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/image.h"
#include "chip/calendar.h"

namespace rtcmend {

/// How the clock bytes are written down (register B).
struct ClockMode {
  bool binary = false;   ///< DM: binary instead of BCD
  bool hours_24 = true;  ///< otherwise bit 7 of the hours byte means PM
  friend bool operator==(const ClockMode&, const ClockMode&) = default;
};

/// "BCD on a 24-hour dial".
std::string mode_words(const ClockMode& mode);

/// A clock byte that cannot be what it says.
struct ClockFault {
  Address at;
  std::string what;  ///< "the minutes byte 7Ah is not BCD"
};

/// One alarm byte.
struct AlarmPart {
  bool any = false;          ///< a don't-care code, C0h-FFh (DS12885)
  std::optional<int> value;  ///< 0-59, or the hour 0-23; nothing when unknown or illegal
};

/// All that the ten clock bytes and registers A and B say.
struct ClockReading {
  bool known = false;             ///< the six bytes of date and time are known
  std::optional<ClockMode> mode;  ///< nothing when register B is unknown
  std::optional<DateTime> time;   ///< only when all six are legal and the date exists
  std::optional<int> weekday;     ///< 1-7 as stored, when legal; it need not fit the date
  bool century_assumed = false;   ///< no century byte: 80-99 taken as 19xx, 00-79 as 20xx
  /// What is wrong with date, time and weekday, seconds first. Without register B nothing can be
  /// judged, and nothing is listed.
  std::vector<ClockFault> faults;
  /// The same for the alarm bytes, which do harm only when register B turns the alarm on.
  std::vector<ClockFault> alarm_faults;
  AlarmPart alarm_hours, alarm_minutes, alarm_seconds;
  /// Counting, and not frozen by SET; nothing when register A or B is unknown.
  std::optional<bool> running;
};

/// Takes any bytes and any mixture of known and unknown ones. A year is shown as the bytes say it,
/// also outside first_year to last_year.
/// century: the legal century from where the layout keeps it (19 or 20), or nothing.
ClockReading read_clock(const Image& image, std::optional<int> century);
/// The same without the words for faults, for those who only judge.
ClockReading judge_clock(const Image& image, std::optional<int> century);

/// "every second", "at 06:30:00": the alarm in words; "unknown" or "not legal" else.
std::string describe_alarm(const ClockReading& reading);

/// Writes date, time and weekday in `mode` (bytes 00, 02, 04, 06-09). The alarms are left alone.
/// The caller has made sure that can_be_set(time).
void write_clock(const DateTime& time, const ClockMode& mode, Image& image);

/// How an image's clock bytes are written down; nothing when register B is unknown.
std::optional<ClockMode> mode_of(const Image& image);

/// Writes the clock and makes it run in `mode`: register A counting at its rate (26h when unknown),
/// register B with SET off, its interrupts as they were (02h when unknown), alarms 00 when unknown.
/// Another mode than before takes the alarms along. The caller has made sure that
/// can_be_set(time).
void start_clock(const DateTime& time, const ClockMode& mode, Image& image);

/// Bytes whose value moves by itself while the oscillator runs: date, time and weekday.
bool ticks(Address at);

}  // namespace rtcmend
