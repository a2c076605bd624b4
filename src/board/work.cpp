#include "board/work.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "board/firmware/protocol.h"
#include "board/refusals.h"
#include "chip/cautions.h"
#include "chip/clock.h"
#include "chip/registers.h"

namespace rtcmend {

namespace {

using namespace std::chrono_literals;

/// Fewer bytes a line than could be: what is lost on the way costs less to say again.
constexpr std::size_t bytes_a_line = 16;
constexpr Moment start_up_patience = 2500ms;  // supply down, up, 250 ms
constexpr Moment edge_patience = 2500ms;
constexpr long long second = 1'000'000;
constexpr Address alarm_bytes[] = {reg::seconds_alarm, reg::minutes_alarm, reg::hours_alarm};

std::uint8_t low_byte(std::size_t value) {
  return static_cast<std::uint8_t>(value & 0xFF);
}

void switch_on(Talk& talk) {
  talk.need({BOARD_ON, {}, start_up_patience});
  talk.need({BOARD_WIRES});
}

void take_ram(Talk& talk, ChipRead& read, std::size_t from) {
  for (std::size_t at = from; at < read.image.size(); at += bytes_a_line) {
    const std::size_t count = std::min(bytes_a_line, read.image.size() - at);
    const auto& bytes = talk.need({BOARD_READ, {low_byte(at), low_byte(count)}});
    if (bytes.size() != count) refuse_status({BOARD_BAD_FRAME, {}, {}});
    for (std::size_t i = 0; i < count; ++i) read.image.set(static_cast<Address>(at + i), bytes[i]);
  }
}

void take_clock(Talk& talk, ChipRead& read) {
  const BoardAnswer answer = talk.ask({BOARD_CLOCK});
  auto bytes = answer.data;
  if (answer.status == BOARD_UPDATE_STUCK) {
    read.remarks.push_back(
        "The update flag does not go low: the clock bytes may come from the middle of an update.");
    bytes = talk.need({BOARD_READ, {0, low_byte(Image::ram_start)}});
  } else if (answer.status != BOARD_DONE) {
    refuse_status(answer);
  }
  if (bytes.size() != Image::ram_start) refuse_status({BOARD_BAD_FRAME, {}, {}});
  for (std::size_t i = 0; i < bytes.size(); ++i) read.image.set(static_cast<Address>(i), bytes[i]);
}

/// The halves of the RAM and the registers that do not move are the same: the chip has 64 bytes and
/// shows them twice (RBIL61).
bool is_mirrored(const Image& image) {
  constexpr std::size_t half = Image::small_size;
  for (std::size_t i = reg::a; i < half; ++i) {
    const auto at = static_cast<Address>(i), above = static_cast<Address>(i + half);
    if (at == reg::c) continue;  // cleared by the first reading
    const int moving = at == reg::a ? 0x7F : 0xFF;
    if (((image[at] ^ image[above]) & moving) != 0) return false;
  }
  return true;
}

bool is_one_value(const Image& image) {
  const auto bytes = image.bytes();
  return std::all_of(bytes.begin(), bytes.end(), [&](auto byte) { return byte == bytes[0]; });
}

/// Bits 6-0 of 0Dh read as 0 (DS12885), so no chip has one value but 00 everywhere.
void check_addresses(const ChipRead& read, bool size_is_known) {
  if (!is_one_value(read.image) || (read.image[0] == 0 && size_is_known)) return;
  throw Error(
      Refusal::input, "board",
      fmt::format("every address answers {:02X}h: the chip takes no addresses", read.image[0]),
      at_bench("look at the wire of AS (pin 14). Only of a chip that is known to be empty, say "
               "how many bytes it has"));
}

ChipRead read_all(Talk& talk, std::optional<std::size_t> size) {
  ChipRead read;
  if (size) read.image = Image(*size);
  take_clock(talk, read);
  take_ram(talk, read, Image::ram_start);
  check_addresses(read, size.has_value());
  if (!size && is_mirrored(read.image)) read.image = read.image.with_size(Image::small_size);
  return read;
}

void write_ram(Talk& talk, const Image& image) {
  for (std::size_t at = Image::ram_start; at < image.size();) {
    std::vector<std::uint8_t> data{low_byte(at)};
    for (;
         at < image.size() && data.size() <= bytes_a_line && image.known(static_cast<Address>(at));
         ++at)
      data.push_back(image[static_cast<Address>(at)]);
    if (data.size() > 1)
      talk.need({BOARD_WRITE, data});
    else
      ++at;
  }
}

/// 0Ah and 0Bh as they are wanted, the oscillator on, updates going.
void registers_of(const Image& wanted, const Image& before, Image& image) {
  const auto a = wanted.at(reg::a).value_or(before.at(reg::a).value_or(usual_a));
  const auto b = wanted.at(reg::b).value_or(before.at(reg::b).value_or(usual_b));
  image.set(reg::a, static_cast<std::uint8_t>((a & 0x0F) | (usual_a & 0x70)));
  image.set(reg::b, static_cast<std::uint8_t>(b & 0x7F));
}

std::vector<std::uint8_t> first_bytes(const Image& image, std::size_t from, std::size_t to) {
  const auto bytes = image.bytes();
  return {bytes.begin() + static_cast<std::ptrdiff_t>(from),
          bytes.begin() + static_cast<std::ptrdiff_t>(to)};
}

/// Alarms that nobody knows are 00.
void fill_alarms(const Image& wanted, const Image& before, Image& image) {
  for (const Address at : alarm_bytes)
    image.set(at, wanted.at(at).value_or(before.at(at).value_or(0)));
}

/// The chip's second ends half a second after its chain is let go, so the line is sent to arrive in
/// the middle of a second.
void set_by_wall(Talk& talk, Image image, const WallClock& wall) {
  constexpr long long way = 12'000;  // 34 characters, the writing, a USB bridge
  constexpr int attempts = 8;
  const auto mode = mode_of(image).value_or(ClockMode{});
  for (int i = 0; i < attempts; ++i) {
    const long long now = wall(talk.now()) + way;
    const long long wait = (second + second / 2 - now % second) % second;
    talk.pause(Moment{wait});
    const DateTime time = from_seconds_since_1980((wall(talk.now()) + way) / second);
    if (!can_be_set(time)) refuse_choice("clock", "the chip holds the years 1980 to 2099 only");
    write_clock(time, mode, image);
    const auto& answer = talk.ask({BOARD_SET, first_bytes(image, 0, reg::c), 300ms, false});
    if (answer.status == BOARD_DONE) return;
    if (answer.status != BoardLink::unanswered) refuse_status(answer);
  }
  throw Error(Refusal::file_system, "board", "the time could not be written: no answer came back",
              "look at the USB cable, and begin again");
}

bool alarms_differ(const Image& image, const Image& before) {
  return std::any_of(std::begin(alarm_bytes), std::end(alarm_bytes),
                     [&](Address at) { return image.at(at) != before.at(at); });
}

/// The chip's time as it stands now, in `mode` where it is one; else its bytes as they are.
void take_present_time(Talk& talk, const ChipRead& before, const ClockMode& mode, Image& image) {
  ChipRead present = before;
  take_clock(talk, present);
  if (const ClockReading clock = read_clock(present.image, std::nullopt); clock.time) {
    write_clock(*clock.time, mode, image);
    return;
  }
  for (Address at = 0; at < reg::a; ++at)
    if (std::count(std::begin(alarm_bytes), std::end(alarm_bytes), at) == 0)
      image.set(at, present.image[at]);
}

/// The chip's own time goes on, in the way of writing that the image wants. Only what has to change
/// is written: with the alarms or the way of writing, the whole clock, which costs less than a
/// second.
void keep_time(Talk& talk, Image image, const ChipRead& before) {
  const auto mode = mode_of(image).value_or(ClockMode{});
  if (mode_of(before.image) == mode && !alarms_differ(image, before.image)) {
    talk.need({BOARD_SET, first_bytes(image, reg::a, reg::c)});
    return;
  }
  take_present_time(talk, before, mode, image);
  talk.need({BOARD_SET, first_bytes(image, 0, reg::c)});
}

}  // namespace

ChipRead read_chip(Talk& talk, std::optional<std::size_t> size) {
  switch_on(talk);
  return read_all(talk, size);
}

void stay(Talk& talk) {
  talk.need({BOARD_HELLO, {}, start_up_patience});
}

void switch_off(Talk& talk) {
  talk.need({BOARD_OFF, {}, start_up_patience});
}

ChipRead write_chip(Talk& talk, const ChipWrite& what, const ChipRead& before) {
  const std::size_t size = before.image.size();
  if (what.image.size() > size)
    refuse("board", fmt::format("the image has {} bytes and the chip {}", what.image.size(), size),
           "the image of a chip of this size, or another chip");
  write_ram(talk, what.image);
  Image clock = before.image;
  registers_of(what.image, before.image, clock);
  fill_alarms(what.image, before.image, clock);
  if (what.clock)
    set_by_wall(talk, clock, what.clock);
  else
    keep_time(talk, clock, before);
  return read_all(talk, size);
}

ChipRead rest_chip(Talk& talk, int seconds, std::size_t size) {
  talk.need({BOARD_REST,
             {low_byte(static_cast<std::size_t>(seconds) >> 8),
              low_byte(static_cast<std::size_t>(seconds))},
             start_up_patience});
  const Moment begun = talk.now();
  for (;;) {
    talk.pause(1s);
    const auto hello = read_hello(talk.need({BOARD_HELLO, {}, start_up_patience}));
    if (!hello) refuse_status({BOARD_BAD_FRAME, {}, {}});
    talk.progress(static_cast<double>((talk.now() - begun).count()) /
                  (static_cast<double>(seconds) * second));
    if (hello->state == BOARD_STATE_RESTING) continue;
    if (hello->status != BOARD_DONE)
      refuse_status({static_cast<std::uint8_t>(hello->status), {}, {}});
    break;
  }
  return read_chip(talk, size);
}

std::vector<ClockEdge> watch_clock(Talk& talk, Moment length) {
  std::vector<ClockEdge> edges;
  int missed = 0;
  const Moment begun = talk.now();
  while (talk.now() - begun < length) {
    const auto& answer = talk.ask({BOARD_EDGE, {}, edge_patience, false});
    talk.progress(static_cast<double>((talk.now() - begun).count()) /
                  static_cast<double>(length.count()));
    if (answer.status == BoardLink::unanswered) {
      if (++missed > 30) refuse_trouble(LinkTrouble::silent, 0);
      continue;
    }
    if (answer.status != BOARD_DONE || answer.data.size() != 1) refuse_status(answer);
    edges.push_back({answer.arrived, answer.data[0]});
  }
  return edges;
}

}  // namespace rtcmend
