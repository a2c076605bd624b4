#include "board/link.h"

#include <utility>

#include "board/firmware/protocol.h"
#include "board/line.h"

namespace rtcmend {

namespace {

using namespace std::chrono_literals;

/// A boot loader is deaf for one to two seconds behind a reset (from memory): listened to first,
/// then asked each half second.
constexpr Moment hello_each = 500ms, hello_most = 3200ms;
/// Ten bits a character.
constexpr Moment character{10'000'000 / BOARD_BAUD + 1};
/// The longest line, and what a USB bridge keeps back (from memory: up to 16 ms each way).
constexpr Moment answer_way = (2 * (2 + BOARD_DATA_MOST + 2) + 2) * character + 40ms;
/// Longer than any line: what is no line of ours.
constexpr std::size_t longest_line = 256;

}  // namespace

std::optional<BoardHello> read_hello(const std::vector<std::uint8_t>& data) {
  if (data.empty()) return std::nullopt;
  if (data[0] != BOARD_VERSION) return BoardHello{data[0]};
  if (data.size() != 9) return std::nullopt;
  const auto word = [&](std::size_t at) { return data[at] << 8 | data[at + 1]; };
  return BoardHello{data[0], data[1], data[2], word(3), word(5), word(7)};
}

BoardLink::BoardLink(Moment now) : begun_(now), next_hello_(now + hello_each) {}

std::uint8_t BoardLink::next_number() {
  if (++number_ == 0) number_ = 1;  // 0 is the number of what was no request
  return number_;
}

void BoardLink::receive(std::string_view bytes, Moment now) {
  for (const char character : bytes) {
    heard_something_ = true;
    if (character != '\n') {
      if (input_.size() < longest_line) input_ += character;
      continue;
    }
    const std::string line = std::exchange(input_, {});
    take_line(line, now);
  }
}

void BoardLink::take_line(std::string_view text, Moment now) {
  const auto line = read_board_line(text);
  if (!line) return;
  const auto& bytes = line->bytes;
  if (line->start == BOARD_GREETING) return greeted(bytes);
  if (line->start != BOARD_REPLY || bytes.size() < 2) return;
  if (!is_open()) {
    if (bytes[0] == number_ && bytes[1] == BOARD_DONE) greeted({bytes.begin() + 2, bytes.end()});
    return;
  }
  if (!waiting_) return;
  if (bytes[0] == 0 && bytes[1] == BOARD_BAD_FRAME) return missed(now);
  if (bytes[0] != number_) return;  // an answer that came too late
  answer_ = BoardAnswer{bytes[1], {bytes.begin() + 2, bytes.end()}, now};
  waiting_.reset();
}

void BoardLink::greeted(const std::vector<std::uint8_t>& data) {
  const auto hello = read_hello(data);
  if (!hello) return;
  if (hello->version != BOARD_VERSION)
    trouble_ = LinkTrouble::other_version;
  else if (is_open())
    trouble_ = LinkTrouble::was_reset;
  hello_ = hello;
}

void BoardLink::say_hello(Moment now) {
  const std::uint8_t bytes[] = {next_number(), BOARD_HELLO};
  output_ += board_line(BOARD_REQUEST, bytes);
  next_hello_ = now + hello_each;
}

void BoardLink::pass(Moment now) {
  if (trouble_ != LinkTrouble::none) return;
  if (is_open()) {
    if (waiting_ && now >= waiting_->until) missed(now);
  } else if (now - begun_ >= hello_most) {
    trouble_ = heard_something_ ? LinkTrouble::foreign : LinkTrouble::deaf;
  } else if (now >= next_hello_) {
    say_hello(now);
  }
}

void BoardLink::ask(const BoardRequest& request, Moment now) {
  std::vector<std::uint8_t> bytes{next_number(), request.command};
  bytes.insert(bytes.end(), request.data.begin(), request.data.end());
  std::string line = board_line(BOARD_REQUEST, bytes);
  const Moment patience = request.patience + static_cast<int>(line.size()) * character + answer_way;
  waiting_ = Waiting{std::move(line), patience, now, request.again ? attempts : 1, request.again};
  answer_.reset();
  send(now);
}

void BoardLink::send(Moment now) {
  --waiting_->attempts_left;
  waiting_->until = now + waiting_->patience;
  output_ += waiting_->line;
}

/// The answer did not come, or the request did not arrive.
void BoardLink::missed(Moment now) {
  if (waiting_->attempts_left > 0) return send(now);
  const bool again = waiting_->again;
  waiting_.reset();
  if (again)
    trouble_ = LinkTrouble::silent;
  else
    answer_ = BoardAnswer{unanswered, {}, now};
}

std::string BoardLink::take_output() {
  return std::exchange(output_, {});
}

std::optional<BoardAnswer> BoardLink::take_answer() {
  return std::exchange(answer_, std::nullopt);
}

}  // namespace rtcmend
