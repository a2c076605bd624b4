#pragma once

#include <string>
#include <string_view>

#include "chip/clock.h"

namespace rtcmend {

/// This computer's local time. Refuses (Error) a year outside 1980-2099, which the chip cannot
/// hold.
DateTime local_now();

/// A time as the user gives it: "2031-05-14T09:30:00" or "now". Refuses (Error) anything else;
/// `where` is the option.
DateTime parse_clock(std::string_view text, const std::string& where);

}  // namespace rtcmend
