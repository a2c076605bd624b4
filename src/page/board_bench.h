#pragma once

#include <functional>
#include <optional>
#include <string_view>

#include "board/talk.h"
#include "board/work.h"
#include "desk/shelf.h"
#include "render/json.h"

namespace rtcmend {

/// The board behind a serial port that the page holds: the page passes bytes on and tells the time,
/// all else is done here, by the same host side as everywhere. Its calls, all of which carry `now`,
/// microseconds of a clock that only goes forward:
///
/// board-offer -> {parts: [{part, fits, why}]}: what there is to choose from
/// board-check {part}, with `write` and an image: refuses what must not begin, before a port opens
/// board-open: the port was just opened
/// board-turn {came (hex)} -> {go (hex), open, done, progress}, and {result} when the work is done;
///   until then it is called again when something came, and every few milliseconds. open: the board
///   has said who it is
///
/// and those that begin a piece of work, whose result the turn brings:
///
/// board-read {size} -> {content (hex), size, cell_low, remarks}
/// board-stay: nothing; keeps the board from switching the chip off while a person thinks
/// board-write {image, layout, read, part, anyway, set_clock, wall} -> {comparison, ready}; wall:
///   milliseconds since 1980-01-01T00:00 on this computer's wall at `now`. Only behind a
///   board-read.
/// board-hold {seconds} -> {retention}; only behind a board-read
/// board-clock {seconds, wall} -> {shown, reference, ppm, ppm_uncertainty, verdict, edges, seconds}
/// board-off: leaves the chip off, whatever was before
class BoardBench {
 public:
  /// Throws Error.
  Json answer(std::string_view verb, const Json& request, Shelf& shelf);
  static bool knows(std::string_view verb) { return verb.starts_with("board-"); }

 private:
  using Work = std::function<void(Talk&)>;
  using Result = std::function<Json()>;

  Json turn(const Json& request);
  void begin(Work work, Result result);
  void read(const Json& request);
  void write(const Json& request, const Shelf& shelf);
  void hold(const Json& request, const Shelf& shelf);
  void clock(const Json& request);
  const ChipRead& need_read() const;

  std::optional<BoardSession> session_;
  std::optional<ChipRead> read_;  ///< what the page has saved since the port was opened
  Result result_;
};

}  // namespace rtcmend
