#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/image.h"
#include "board/talk.h"
#include "chip/calendar.h"

namespace rtcmend {

/// What was read from a chip.
struct ChipRead {
  Image image{Image::large_size};
  std::vector<std::string> remarks;  ///< what is to be said of the reading
};

/// Supply on, wires tested, size settled, every byte read; the chip stays on. size: 64 or 128, or
/// nothing to find it out. Refuses (Error) whatever makes a reading worthless.
ChipRead read_chip(Talk& talk, std::optional<std::size_t> size);

/// Keeps the board from switching the chip off for half a minute more.
void stay(Talk& talk);

/// The supply off, whatever was before.
void switch_off(Talk& talk);

/// The time of a good clock, in microseconds since 1980-01-01T00:00:00 on the wall.
using WallClock = std::function<long long(Moment)>;

/// What goes into the chip.
struct ChipWrite {
  Image image;      ///< known RAM bytes are written, others left
  WallClock clock;  ///< sets the chip's clock by it; none = the chip's own time is kept
};

/// Writes RAM first, then the registers, oscillator on, and the time last, under SET; each byte is
/// read back by the board, and all of them at the end. before: what the chip held. Returns what it
/// holds then. Refuses (Error) an image that is larger than the chip.
ChipRead write_chip(Talk& talk, const ChipWrite& what, const ChipRead& before);

/// Seconds that lie between the readings before and after a rest besides the rest itself: supply up
/// and down, the reading, whole seconds.
inline constexpr long long bench_slack = 5;

/// Takes the supply away for so long, and reads the chip when it is back.
ChipRead rest_chip(Talk& talk, int seconds, std::size_t size);

/// The end of one of the chip's seconds.
struct ClockEdge {
  Moment at{0};
  int second = 0;  ///< the byte at 00h, as stored
};

/// Watches the chip's seconds end for so long.
std::vector<ClockEdge> watch_clock(Talk& talk, Moment length);

}  // namespace rtcmend
