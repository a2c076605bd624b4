#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/image.h"

namespace rtcmend::test {

/// An invented image, and what is to be said of it.
struct StandingRow {
  const char* reason;  ///< what it is, and why the rest follows
  std::string layout;  ///< to read it by
  Image image;
  const char* standing;  ///< "trusted proven right"
  int exit;              ///< of verify
  const char* forecast;  ///< codes in the order of work: "161 163"
  /// Who writes: k deliver and keep the clock, i deliver with the image's time, c set the clock.
  const char* writers;
};

/// All of it typed in by hand.
std::vector<StandingRow> standing_rows();

}  // namespace rtcmend::test
