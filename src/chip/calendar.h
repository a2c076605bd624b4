#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace rtcmend {

/// A date and time of day, as on the wall; no time zone.
struct DateTime {
  int year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0;
  friend auto operator<=>(const DateTime&, const DateTime&) = default;
};

/// The years a clock may be set to: from the first PCs to the last year whose leap days the chip
/// gets right (DS12885).
inline constexpr int first_year = 1980, last_year = 2099;

/// A date of the Gregorian calendar and a time of day without leap seconds, in whatever year.
bool exists(const DateTime& time);
/// Exists, and lies in first_year to last_year.
bool can_be_set(const DateTime& time);

/// Reads "2031-05-14T09:30:00" (a blank for the T, and no seconds, are accepted). Nothing when it
/// is not a date and time that exists between 1980 and 2099.
std::optional<DateTime> parse_iso(std::string_view text);
/// "2031-05-14T09:30:00".
std::string to_iso(const DateTime& time);
/// 1 = Sunday to 7 = Saturday, the chip's own counting. The date must exist.
int weekday_of(int year, int month, int day);
/// "Sunday" for 1 to "Saturday" for 7; "no weekday" for anything else.
std::string_view weekday_name(int weekday);
/// 28 to 31. The month must lie in 1 to 12.
int days_in_month(int year, int month);
/// Seconds since 1980-01-01T00:00:00, negative before it, and back.
long long seconds_since_1980(const DateTime& time);
DateTime from_seconds_since_1980(long long seconds);

}  // namespace rtcmend
