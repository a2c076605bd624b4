#pragma once

#include <span>
#include <string>
#include <string_view>

namespace rtcmend {

/// One wire between board and chip.
struct BenchWire {
  std::string_view board;   ///< the pin's name on the board: "D2", "A0", "GND"
  std::string_view avr;     ///< and the microcontroller's: "PD2"; empty for supply and ground
  int chip = 0;             ///< pin of the chip in its socket of 24 pins
  std::string_view line;    ///< "AD2"
  std::string_view beside;  ///< what else belongs to it: a resistor and where it goes; may be empty
};

/// All wires, by the chip's pins.
std::span<const BenchWire> bench_wires();

/// What has to be at hand, each with what it is for.
struct BenchItem {
  std::string_view what, why;
};
std::span<const BenchItem> shopping_list();

/// What is looked at and measured before the chip goes in, in this order.
std::span<const std::string_view> checks_before_the_chip();

/// How a part stands to the board.
struct BoardFit {
  std::string_view part;
  bool fits = false;
  std::string_view why;  ///< empty when there is nothing to say
};
std::span<const BoardFit> board_fits();
/// That of one part; null when the list does not have it: then nothing may be tried.
const BoardFit* board_fit(std::string_view part);

/// "AD3 (pin 7)" for a line's number in the wire test's answer.
std::string spoken_line(int line);

}  // namespace rtcmend
