#pragma once

#include <optional>
#include <string>

#include "board/rate.h"
#include "board/wiring.h"
#include "board/work.h"
#include "terminal/ink.h"

namespace rtcmend {

/// Cautions, what to buy, the drawing, the table, the checks, and which parts fit; of one part
/// whether it fits.
std::string wiring_text(const BoardFit* part, const Ink& ink);
/// What was read, and what is to be said of it. saved: the file.
std::string chip_read_text(const ChipRead& read, const std::string& saved);
/// How to put the firmware on the board.
std::string firmware_text(const std::string& file);

/// What a clock showed, what a good one showed then, and its rate.
struct ClockOnBench {
  std::optional<DateTime> shown;
  DateTime reference;
  std::optional<ClockRate> rate;
};
std::string clock_on_bench_text(const ClockOnBench& clock);

}  // namespace rtcmend
