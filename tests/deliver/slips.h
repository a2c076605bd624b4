#pragma once

#include <cstdint>
#include <string>

#include "support/invented_firmware.h"

namespace rtcmend::test {

/// A typed text with one slip of the hand in it.
struct Slip {
  std::string text;
  std::size_t line = 0;  ///< where it happened, counted from 0
  std::string kind;      ///< "changed", "lost", "doubled", "exchanged", "shifted", "line lost",
                         ///< "line doubled"
};

/// A random slip in a text whose lines end with CR LF: six of seven concern a character, the others
/// a line. The line ends themselves stay.
Slip random_slip(const std::string& text, Dice& dice);

}  // namespace rtcmend::test
