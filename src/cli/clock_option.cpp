#include "cli/clock_option.h"

#include <ctime>
#include <fmt/format.h>

#include "base/error.h"
#include "base/system.h"
#include "base/text.h"

namespace rtcmend {

DateTime local_now() {
  const std::time_t seconds = std::time(nullptr);
  const auto told = system::local_time(seconds);
  if (!told) refuse("now", "this computer does not know the time", "give the time itself");
  const std::tm& local = *told;
  const DateTime now{local.tm_year + 1900, local.tm_mon + 1, local.tm_mday,
                     local.tm_hour,        local.tm_min,     local.tm_sec};
  // A leap second is a second that the chip does not have; and its years are 1980 to 2099
  // (DS12885).
  const auto possible = parse_iso(to_iso(
      {now.year, now.month, now.day, now.hour, now.minute, now.second > 59 ? 59 : now.second}));
  if (!possible)
    refuse("now", fmt::format("this computer's own clock says {}", to_iso(now)),
           "set it first, or give the time itself");
  return *possible;
}

DateTime parse_clock(std::string_view text, const std::string& where) {
  if (lower(trim(text)) == "now") return local_now();
  if (const auto time = parse_iso(trim(text))) return *time;
  refuse(where, fmt::format("\"{}\" is not a date and time between 1980 and 2099", text),
         "2031-05-14T09:30:00, or now");
}

}  // namespace rtcmend
