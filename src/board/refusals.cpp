#include "board/refusals.h"

#include <fmt/format.h>

#include "base/text.h"
#include "board/firmware/protocol.h"
#include "board/wiring.h"
#include "chip/cautions.h"

namespace rtcmend {

namespace {

using Data = std::vector<std::uint8_t>;

int byte(const Data& data, std::size_t at) {
  return at < data.size() ? data[at] : 0;
}

std::string volts(const Data& data) {
  return fmt::format("{:.2f} V", (byte(data, 0) << 8 | byte(data, 1)) / 1000.0);
}

/// Lines of a mask with their pins: "AD3 (pin 7), AD4 (pin 8)".
std::string lines_of(int mask) {
  std::vector<std::string> names;
  for (int line = 0; line <= BOARD_LINE_WR; ++line)
    if ((mask >> line & 1) != 0) names.push_back(spoken_line(line));
  return join(names, ", ");
}

Error at_chip(std::string what, Advice advice) {
  return {Refusal::input, "board", std::move(what), at_bench(std::move(advice))};
}

Error floating(const Data& data) {
  return at_chip(fmt::format("nobody drives {} (seen at address {})", lines_of(byte(data, 1)),
                             hex_prose(static_cast<std::uint8_t>(byte(data, 0)))),
                 "look at that wire and the chip's contact in its socket");
}

Error touching(const Data& data) {
  const int line = byte(data, 0), mask = byte(data, 1) << 8 | byte(data, 2);
  if (line == BOARD_LINE_PLUS)
    return at_chip(fmt::format("{} does not go low: it touches the supply", lines_of(mask)),
                   "look at that wire for a bridge to +5 V");
  if (line == BOARD_LINE_AS)
    return at_chip(fmt::format("{} touches AS (pin 14) or ground", lines_of(mask)),
                   "look at those wires and sockets for a bridge");
  return at_chip(fmt::format("{} and {} touch each other", spoken_line(line), lines_of(mask)),
                 "look at those wires and sockets for a bridge");
}

}  // namespace

Error status_error(std::uint8_t status, const Data& data) {
  switch (status) {
    case BOARD_BAD_FRAME:
    case BOARD_BAD_COMMAND:
    case BOARD_BAD_RANGE:
      return {Refusal::input, "board",
              fmt::format("it does not take what it was asked (status {})", status),
              "put this program's firmware on it and begin again"};
    case BOARD_NO_POWER:
      return {Refusal::input, "board",
              "it has taken the supply from the chip meanwhile; the work is void",
              "begin again: what the chip says now is read first"};
    case BOARD_FLOATING:
      return floating(data);
    case BOARD_TOUCHING:
      return touching(data);
    case BOARD_NO_CHIP:
      return at_chip("no chip answers: nobody drives any of the data lines",
                     "look whether the chip sits in its socket the right way round, and at the "
                     "wires of CS (pin 13), AS (pin 14), DS (pin 17), ground (pin 12) and MOT (pin "
                     "1, to ground)");
    case BOARD_LOW_RAIL:
      return at_chip(
          fmt::format("its own supply is {}: the chip needs 4.5 V or more", volts(data)),
          "another USB port or a shorter cable; a board that feeds its 5 V pin through a "
          "diode is not enough. Where a meter shows 4.75 V or more, check the supply's "
          "wires to the microcontroller");
    case BOARD_SUPPLY_SHORT:
      return at_chip(
          fmt::format("the chip's supply comes to {} only and was switched off: a short, "
                      "or a chip the wrong way round",
                      volts(data)),
          "unplug the board at once, take the chip out, look where its pin 1 belongs, "
          "and feel with care whether it is warm; a chip that sat the wrong way round "
          "may be lost");
    case BOARD_FED_ELSEWHERE:
      return at_chip(fmt::format("the chip has {} while its supply is off: something else feeds it",
                                 volts(data)),
                     "take it out of the machine; look for a wire from +5 V and for the bleeding "
                     "resistor of 4.7 kOhm from pin 24 to ground");
    case BOARD_UPDATE_STUCK:
      return at_chip("its update flag (UIP, 0Ah bit 7) does not go low: the time cannot be read",
                     "read once more; when it stays so, the chip's oscillator is at fault");
    case BOARD_BUSY:
      return {Refusal::input, "board",
              fmt::format("it keeps the chip without supply for {} s more",
                          byte(data, 0) << 8 | byte(data, 1)),
              "wait until then, or unplug it"};
    case BOARD_NOT_TAKEN:  // its two values stay untold: the byte may be a password's
      return at_chip(fmt::format("the byte at {} does not take what is written",
                                 hex_prose(static_cast<std::uint8_t>(byte(data, 0)))),
                     "look at the wire of R/W (pin 15); when other bytes are taken, the chip has a "
                     "dead place");
    case BOARD_NO_EDGE:
      return at_chip("the clock stands: no second ended in two seconds",
                     "write an image that switches the oscillator on (0Ah = 26h); when it stands "
                     "then too, the crystal inside is dead");
    default:
      return {Refusal::input, "board",
              fmt::format("it answers with a status unknown here, {}", status),
              "put this program's firmware on it"};
  }
}

void refuse_status(const BoardAnswer& answer) {
  throw status_error(answer.status, answer.data);
}

Error trouble_error(LinkTrouble trouble, int version) {
  switch (trouble) {
    case LinkTrouble::deaf:
      return {Refusal::input, "board", "nothing answers on this port",
              "the board's port and its firmware; unplug it and plug it in again"};
    case LinkTrouble::foreign:
      return {Refusal::input, "board", "what answers on this port is not this program's firmware",
              "put the firmware on the board, or name another port"};
    case LinkTrouble::other_version:
      return {Refusal::input, "board",
              fmt::format("its firmware speaks version {} of the protocol, this program version {}",
                          version, int{BOARD_VERSION}),
              "put this program's firmware on it"};
    case LinkTrouble::was_reset:
      return {Refusal::file_system, "board",
              "it was reset in the middle, so that the chip was without supply; the work is void",
              "look at the USB cable and its supply, and begin again"};
    default:
      return {Refusal::file_system, "board", "it answers no more; the work is void",
              "look at the USB cable, and begin again: the chip is switched off by itself after 30 "
              "seconds"};
  }
}

void refuse_trouble(LinkTrouble trouble, int version) {
  throw trouble_error(trouble, version);
}

}  // namespace rtcmend
