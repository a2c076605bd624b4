#include "chip/calendar.h"

#include <array>
#include <chrono>
#include <fmt/format.h>

namespace rtcmend {

namespace {

using Day = std::chrono::sys_days;
constexpr Day epoch{std::chrono::year{1980} / 1 / 1};

std::chrono::year_month_day civil(int year, int month, int day) {
  return std::chrono::year{year} / std::chrono::month{static_cast<unsigned>(month)} /
         std::chrono::day{static_cast<unsigned>(day)};
}

bool between(int value, int least, int most) {
  return least <= value && value <= most;
}

// Only for text that has matched a pattern.
int number(std::string_view digits) {
  int value = 0;
  for (const char c : digits) value = value * 10 + (c - '0');
  return value;
}

// One letter of the pattern: '0' stands for a digit, 'T' for a T or a blank, others for themselves.
bool matches(char pattern, char c) {
  if (pattern == '0') return '0' <= c && c <= '9';
  if (pattern == 'T') return c == 'T' || c == ' ';
  return pattern == c;
}

bool matches(std::string_view pattern, std::string_view text) {
  if (pattern.size() != text.size()) return false;
  for (std::size_t i = 0; i < text.size(); ++i)
    if (!matches(pattern[i], text[i])) return false;
  return true;
}

}  // namespace

bool exists(const DateTime& time) {
  return between(time.month, 1, 12) && between(time.day, 1, days_in_month(time.year, time.month)) &&
         between(time.hour, 0, 23) && between(time.minute, 0, 59) && between(time.second, 0, 59);
}

bool can_be_set(const DateTime& time) {
  return between(time.year, first_year, last_year) && exists(time);
}

std::optional<DateTime> parse_iso(std::string_view text) {
  const bool with_seconds = matches("0000-00-00T00:00:00", text);
  if (!with_seconds && !matches("0000-00-00T00:00", text)) return std::nullopt;
  const DateTime time{number(text.substr(0, 4)),  number(text.substr(5, 2)),
                      number(text.substr(8, 2)),  number(text.substr(11, 2)),
                      number(text.substr(14, 2)), with_seconds ? number(text.substr(17, 2)) : 0};
  if (!can_be_set(time)) return std::nullopt;
  return time;
}

std::string to_iso(const DateTime& time) {
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}", time.year, time.month, time.day,
                     time.hour, time.minute, time.second);
}

int weekday_of(int year, int month, int day) {
  const std::chrono::weekday weekday{Day{civil(year, month, day)}};
  return static_cast<int>(weekday.c_encoding()) + 1;
}

std::string_view weekday_name(int weekday) {
  static constexpr std::array<std::string_view, 7> names{
      "Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};
  if (!between(weekday, 1, 7)) return "no weekday";
  return names[static_cast<std::size_t>(weekday - 1)];
}

int days_in_month(int year, int month) {
  const auto last = std::chrono::year{year} / std::chrono::month{static_cast<unsigned>(month)} /
                    std::chrono::last;
  return static_cast<int>(static_cast<unsigned>(last.day()));
}

long long seconds_since_1980(const DateTime& time) {
  const auto days = Day{civil(time.year, time.month, time.day)} - epoch;
  return (std::chrono::seconds{days} + std::chrono::hours{time.hour} +
          std::chrono::minutes{time.minute} + std::chrono::seconds{time.second})
      .count();
}

DateTime from_seconds_since_1980(long long seconds) {
  const std::chrono::seconds whole{seconds};
  const auto days = std::chrono::floor<std::chrono::days>(whole);
  const std::chrono::year_month_day date{epoch + days};
  const std::chrono::hh_mm_ss clock{whole - days};
  return {static_cast<int>(date.year()),
          static_cast<int>(static_cast<unsigned>(date.month())),
          static_cast<int>(static_cast<unsigned>(date.day())),
          static_cast<int>(clock.hours().count()),
          static_cast<int>(clock.minutes().count()),
          static_cast<int>(clock.seconds().count())};
}

}  // namespace rtcmend
