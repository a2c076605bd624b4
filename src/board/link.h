#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rtcmend {

/// A moment of a clock that only goes forward, from whatever beginning.
using Moment = std::chrono::microseconds;

/// What the board is asked.
struct BoardRequest {
  std::uint8_t command = 0;
  std::vector<std::uint8_t> data{};
  Moment patience{300'000};  ///< how long it may take, the way over the wire not counted
  bool again = true;         ///< asked again when no answer comes; the board does it once only
};

/// What it answers.
struct BoardAnswer {
  std::uint8_t status = 0;
  std::vector<std::uint8_t> data;
  Moment arrived{0};  ///< of the line's end
};

/// What it says of itself, as greeting and when asked.
struct BoardHello {
  int version = 0, state = 0, status = 0;
  int rail_millivolts = 0, chip_millivolts = 0, seconds_to_rest = 0;
};

std::optional<BoardHello> read_hello(const std::vector<std::uint8_t>& data);

/// Why nothing goes any more.
enum class LinkTrouble {
  none,
  deaf,           ///< nothing comes
  foreign,        ///< something comes, but not from this firmware
  other_version,  ///< the firmware speaks another version of the protocol
  was_reset,      ///< a greeting in the middle: the chip was without supply
  silent          ///< no more answers, or none that is whole
};

/// The line protocol seen from the program: asks again when something is lost, knows its answers by
/// their number, and gives up in time. Without a port and a clock of its own: bytes come in and go
/// out, and the time is told.
class BoardLink {
 public:
  /// The port was just opened, which resets most boards.
  explicit BoardLink(Moment now);

  void receive(std::string_view bytes, Moment now);
  void pass(Moment now);
  std::string take_output();

  /// Whether the board has said who it is.
  bool is_open() const { return hello_.has_value(); }
  const BoardHello& hello() const { return *hello_; }
  LinkTrouble trouble() const { return trouble_; }

  /// Nothing may be under way.
  void ask(const BoardRequest& request, Moment now);
  bool waits() const { return waiting_.has_value(); }
  /// The answer to what was asked. A request that is not asked again and that stays without one
  /// ends in `unanswered`.
  std::optional<BoardAnswer> take_answer();

  static constexpr std::uint8_t unanswered = 0xFF;
  static constexpr int attempts = 10;

 private:
  struct Waiting {
    std::string line;
    Moment patience, until;
    int attempts_left;
    bool again;
  };

  void take_line(std::string_view text, Moment now);
  void greeted(const std::vector<std::uint8_t>& data);
  void say_hello(Moment now);
  void send(Moment now);
  void missed(Moment now);
  std::uint8_t next_number();

  Moment begun_, next_hello_;
  std::string input_, output_;
  std::optional<BoardHello> hello_;
  std::optional<Waiting> waiting_;
  std::optional<BoardAnswer> answer_;
  std::uint8_t number_ = 0;
  bool heard_something_ = false;
  LinkTrouble trouble_ = LinkTrouble::none;
};

}  // namespace rtcmend
