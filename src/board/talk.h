#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "board/link.h"

namespace rtcmend {

/// The board in a piece of work: asked as if every answer came at once. In truth the work is left
/// at an answer that is not there yet and begun anew when it is, with all earlier ones at hand. So
/// it must ask the same things each time, and change nothing outside itself before its end.
class Talk {
 public:
  /// The answer, whatever its status; one that is not BOARD_DONE is refused by need().
  const BoardAnswer& ask(const BoardRequest& request);
  /// The data of an answer that must be BOARD_DONE. Refuses (Error) any other status in plain
  /// words.
  const std::vector<std::uint8_t>& need(const BoardRequest& request);
  void pause(Moment length);
  /// When the last answer came, or the last pause ended.
  Moment now() const;
  /// How far the work is, from 0 to 1, for somebody who waits.
  void progress(double part) { progress_ = part; }

 private:
  friend class BoardSession;
  struct Pending {};
  struct Step {
    std::optional<BoardRequest> request;
    Moment pause{0};
  };
  const BoardAnswer& next(Step step);

  std::vector<BoardAnswer> answers_;
  std::size_t used_ = 0;
  std::optional<Step> wanted_;
  Moment begun_{0};
  double progress_ = 0;
};

/// A conversation with a board on a port that somebody else holds: bytes in, bytes out, the time
/// told. One piece of work at a time, begun once the board has said who it is.
class BoardSession {
 public:
  explicit BoardSession(Moment now) : link_(now) {}

  void begin(std::function<void(Talk&)> work) {
    work_ = std::move(work);
    talk_ = {};
    begun_ = false;
  }
  bool is_done() const { return !work_; }
  double progress() const { return talk_.progress_; }
  const BoardLink& link() const { return link_; }

  /// Throws Error, from then on too, when the board or its wire fails; from the work, what it
  /// throws.
  void receive(std::string_view bytes, Moment now);
  void pass(Moment now) { receive({}, now); }
  std::string take_output() { return link_.take_output(); }

 private:
  void proceed(Moment now);
  bool has_next(Moment now);

  BoardLink link_;
  std::function<void(Talk&)> work_;
  Talk talk_;
  bool begun_ = false;
  std::optional<Moment> paused_until_;
};

}  // namespace rtcmend
