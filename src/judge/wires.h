#pragma once

#include <string>

namespace rtcmend {

/// "AD5 (pin 9 of a 24-pin part)": the pin that carries data bit `line`, and address bit `line` as
/// well, for 0 to 7 (DS12885: AD0-AD7 are pins 4 to 11).
std::string bus_pin(unsigned line);

}  // namespace rtcmend
