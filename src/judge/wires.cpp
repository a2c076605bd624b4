#include "judge/wires.h"

#include <fmt/format.h>

namespace rtcmend {

std::string bus_pin(unsigned line) {
  constexpr unsigned pin_of_line_0 = 4;
  return fmt::format("AD{} (pin {} of a 24-pin part)", line, pin_of_line_0 + line);
}

}  // namespace rtcmend
