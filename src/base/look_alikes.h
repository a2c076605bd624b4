#pragma once

#include <algorithm>
#include <string_view>

namespace rtcmend {

/// Hex digits that people take for one another on a screen, a photograph or in handwriting; common
/// practice, no source.
inline constexpr std::string_view look_alikes[] = {"0D", "08", "8B", "38", "68",
                                                   "56", "17", "49", "EF", "06"};

/// Whether two digits (0 to 15) are such a pair.
constexpr bool look_alike(unsigned a, unsigned b) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  return std::any_of(std::begin(look_alikes), std::end(look_alikes), [&](std::string_view pair) {
    return (pair[0] == digits[a] && pair[1] == digits[b]) ||
           (pair[0] == digits[b] && pair[1] == digits[a]);
  });
}

/// How many digits are easily taken for this one.
constexpr unsigned count_look_alikes(unsigned digit) {
  unsigned count = 0;
  for (unsigned other = 0; other <= 0xF; ++other) count += look_alike(digit, other) ? 1 : 0;
  return count;
}

}  // namespace rtcmend
