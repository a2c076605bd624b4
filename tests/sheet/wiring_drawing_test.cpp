#include "sheet/wiring_drawing.h"

#include <catch2/catch.hpp>

#include "base/files.h"
#include "board/wiring.h"

using namespace rtcmend;

namespace {

std::size_t count_of(const std::string& text, const std::string& words) {
  std::size_t count = 0;
  for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++count;
  return count;
}

}  // namespace

TEST_CASE(
    "every wire of the bench stands in the picture, by the pin of the board and of the chip") {
  const std::string picture = wiring_drawing().text();
  for (const BenchWire& wire : bench_wires()) {
    INFO(wire.line);
    if (!wire.board.empty())
      CHECK(count_of(picture, ">" + std::string(wire.board) + "</text>") >= 1);
    if (wire.chip != 24) CHECK(count_of(picture, ">" + std::string(wire.line) + "</text>") == 1);
  }
  for (int pin = 1; pin <= 24; ++pin) {
    const std::size_t wanted = pin == 10 ? 2 : 1;  // and the resistor of 10 ohm
    CHECK(count_of(picture, ">" + std::to_string(pin) + "</text>") == wanted);
  }
  CHECK(count_of(picture, ">220</text>") == 8);
  CHECK(count_of(picture, "10 kOhm to pin 24") == 4);  // CS, R/W, DS and RESET
  CHECK(count_of(picture, "10 kOhm to ground") == 1);
}

TEST_CASE("the picture says that no wire goes from the gate's pin to the chip's supply") {
  CHECK(wiring_drawing().text().find("No wire goes from A1 to pin 24 itself.") !=
        std::string::npos);
}

TEST_CASE("the handbook's picture is the one that the program draws") {
  // When the wiring changes: board wiring, written to this file.
  CHECK(read_whole(std::string(RTCMEND_SOURCE_DIR) + "/docs/handbook/11-bench.svg") ==
        wiring_drawing().text() + "\n");
}
