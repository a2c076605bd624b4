#include "board/wiring.h"

#include <catch2/catch.hpp>
#include <map>
#include <regex>
#include <set>

#include "base/files.h"
#include "layout/parts_catalogue.h"

using namespace rtcmend;

namespace {

/// "#define NAME VALUE" of the firmware's pins, the value's first word.
std::map<std::string, std::string> pins_of_the_firmware() {
  const std::string text =
      read_whole(std::string(RTCMEND_SOURCE_DIR) + "/src/board/firmware/pins.h");
  static const std::regex line("#define ([A-Z_]+) ([0-9A-Za-z]+)");
  std::map<std::string, std::string> pins;
  for (std::sregex_iterator found(text.begin(), text.end(), line), end; found != end; ++found)
    pins[(*found)[1]] = (*found)[2];
  return pins;
}

std::string avr_pin(std::string_view line) {
  for (const BenchWire& wire : bench_wires())
    if (wire.line == line) return std::string(wire.avr);
  return "none";
}

}  // namespace

TEST_CASE("people are told the pins that the firmware drives") {
  auto pins = pins_of_the_firmware();
  CHECK(avr_pin("AS") == pins["PIN_AS"]);
  CHECK(avr_pin("DS") == pins["PIN_RD"]);
  CHECK(avr_pin("R/W") == pins["PIN_WR"]);
  CHECK(avr_pin("CS") == pins["PIN_CS"]);
  CHECK(avr_pin("+5 V, switched") == pins["PIN_GATE"]);
  CHECK(avr_pin("+5 V, sensed") == "PC" + pins["ADC_SENSE"]);
  CHECK(pins["BUS_ON_D"] == "0xFC");
  CHECK(pins["BUS_ON_B"] == "0x03");
  for (int i = 2; i <= 7; ++i) CHECK(avr_pin("AD" + std::to_string(i)) == "PD" + std::to_string(i));
  CHECK(avr_pin("AD0") == "PB0");
  CHECK(avr_pin("AD1") == "PB1");
}

// Pins 4 to 11, 12 to 15, 17, 18 and 24: DS12885 and DS12B887 data sheets.
TEST_CASE("the wires go to the chip's pins as its data sheets have them") {
  std::map<std::string, int> chip;
  for (const BenchWire& wire : bench_wires()) chip[std::string(wire.line)] = wire.chip;
  for (int i = 0; i < 8; ++i) CHECK(chip["AD" + std::to_string(i)] == 4 + i);
  CHECK(chip["MOT"] == 1);
  CHECK(chip["ground"] == 12);
  CHECK(chip["CS"] == 13);
  CHECK(chip["AS"] == 14);
  CHECK(chip["R/W"] == 15);
  CHECK(chip["DS"] == 17);
  CHECK(chip["RESET"] == 18);
  CHECK(chip["+5 V, switched"] == 24);
}

TEST_CASE("no wire goes to a cell's pin, to RAM clear or to what has no connection") {
  for (const BenchWire& wire : bench_wires())
    for (const int pin : {2, 3, 16, 19, 20, 21, 22, 23}) CHECK(wire.chip != pin);
}

TEST_CASE("of every known part it is said whether it fits, and of no other") {
  std::set<std::string> known, told;
  for (const Part& part : known_parts()) known.insert(part.name);
  for (const BoardFit& fit : board_fits()) {
    told.emplace(fit.part);
    CHECK((fit.fits || !fit.why.empty()));
  }
  CHECK(told == known);
  CHECK_FALSE(board_fit("MC146818")->fits);
  CHECK(board_fit("DS12887")->fits);
  CHECK(board_fit("DS9999") == nullptr);
}
