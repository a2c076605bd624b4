// The wiring of the bench board as a picture. All lengths are in the drawing's own units.
#include "sheet/wiring_drawing.h"

#include <fmt/format.h>

#include "board/wiring.h"

namespace rtcmend {

namespace {

constexpr int width = 800, height = 640;
// The chip from above: pin 1 at the top left, pin 24 at the top right.
constexpr int chip_left = 240, chip_right = 410, chip_top = 40,
              chip_middle = (chip_left + chip_right) / 2, pin_pitch = 28, pins_a_side = 12,
              supply_pin = 24;
constexpr int supply_top = 480, ground_bottom = 590;

struct Point {
  int x, y;
};

Html line(Point from, Point to) {
  return lone("path", {{"d", fmt::format("M{} {}L{} {}", from.x, from.y, to.x, to.y)}});
}

Html label(Point at, const char* side, std::string_view text) {
  return element("text",
                 {{"x", std::to_string(at.x)}, {"y", std::to_string(at.y + 4)}, {"class", side}},
                 text);
}

Html frame(Point corner, int wide, int high) {
  return lone("rect", {{"x", std::to_string(corner.x)},
                       {"y", std::to_string(corner.y)},
                       {"width", std::to_string(wide)},
                       {"height", std::to_string(high)}});
}

/// A pin of the board: its name in a frame, its middle at `at`.
Html board_pin(Point at, std::string_view name) {
  return frame({at.x - 20, at.y - 10}, 40, 20) + label(at, "middle", name);
}

/// A resistor lying in a wire, or standing in one.
Html resistor(Point middle, std::string_view ohms) {
  return frame({middle.x - 25, middle.y - 8}, 50, 16) + label(middle, "middle", ohms);
}

/// From `top` down to ground, with a part between.
Html to_ground(Point top, const Html& part) {
  const Point foot{top.x, ground_bottom};
  return line(top, {top.x, 530}) + part + line({top.x, 546}, foot) +
         line({foot.x - 10, foot.y}, {foot.x + 10, foot.y});
}

Html capacitor(Point middle, std::string_view value) {
  const auto plate = [&](int y) { return line({middle.x - 12, y}, {middle.x + 12, y}); };
  return line({middle.x, middle.y - 8}, {middle.x, middle.y - 3}) + plate(middle.y - 3) +
         plate(middle.y + 3) + line({middle.x, middle.y + 3}, {middle.x, middle.y + 8}) +
         label({middle.x + 16, middle.y}, "start", value);
}

Point end_of_pin(int pin) {
  const bool left = pin <= pins_a_side;
  const int place = left ? pin : 2 * pins_a_side + 1 - pin;
  return {left ? chip_left : chip_right, chip_top + place * pin_pitch};
}

std::string_view board_pin_of(std::string_view line) {
  for (const BenchWire& wire : bench_wires())
    if (wire.line == line) return wire.board;
  return "";
}

/// The wire of a pin with what lies in it or beside it.
Html wire(const BenchWire& wire) {
  const Point from = end_of_pin(wire.chip);
  const bool left = from.x == chip_left;
  const Point to{left ? from.x - 150 : from.x + 90, from.y};
  Html all = wire.board.empty() ? own_markup("") : line(from, to) + board_pin(to, wire.board);
  if (wire.beside == "220 ohm in the wire") return all + resistor({from.x - 65, from.y}, "220");
  if (wire.board == "GND") return all;
  return all + label({wire.board.empty() ? from.x + 10 : to.x + 28, from.y}, "start", wire.beside);
}

Html chip() {
  constexpr int bottom = chip_top + (pins_a_side + 1) * pin_pitch;
  Html all =
      frame({chip_left, chip_top}, chip_right - chip_left, bottom - chip_top) +
      lone("path", {{"d", fmt::format("M{} {}a12 12 0 0 0 24 0", chip_middle - 12, chip_top)}});
  all += label({chip_middle, chip_top - 14}, "middle", "the chip from above, notch up");
  for (int pin = 1; pin <= 2 * pins_a_side; ++pin) {
    const Point at = end_of_pin(pin);
    const bool left = at.x == chip_left;
    all += label({left ? at.x + 6 : at.x - 6, at.y}, left ? "start" : "end", std::to_string(pin));
  }
  return all;
}

Html names_of_lines() {
  Html all = own_markup("");
  for (const BenchWire& wire : bench_wires()) {
    const Point at = end_of_pin(wire.chip);
    const bool left = at.x == chip_left;
    if (wire.chip != supply_pin)
      all += label({left ? at.x + 28 : at.x - 28, at.y}, left ? "start" : "end", wire.line);
  }
  const Point supply = end_of_pin(supply_pin);
  return all + label({supply.x - 28, supply.y}, "end", "+5 V") +
         line(supply, {supply.x + 90, supply.y}) +
         label({supply.x + 98, supply.y}, "start", "its supply: below");
}

/// 5V by the transistor to pin 24, and what hangs there.
Html supply() {
  constexpr int y = supply_top, gate_y = 560;
  const std::string_view gate = board_pin_of("+5 V, switched");
  Html all = board_pin({60, y}, "5V") + line({80, y}, {200, y}) + frame({200, y - 22}, 110, 44) +
             label({255, y - 8}, "middle", "P-channel") + label({255, y + 8}, "middle", "MOSFET") +
             label({195, y - 12}, "end", "source") + label({315, y - 12}, "start", "drain");
  all += line({255, y + 22}, {255, gate_y}) + label({262, y + 34}, "start", "gate") +
         line({255, gate_y}, {80, gate_y}) + board_pin({60, gate_y}, gate);
  all +=
      line({130, y}, {130, 512}) + resistor({130, 520}, "10 k") + line({130, 528}, {130, gate_y});
  all += line({310, y}, {355, y}) + resistor({380, y}, "10") + line({405, y}, {680, y}) +
         label({688, y}, "start", "pin 24");
  all += line({450, y}, {450, y - 16}) + board_pin({450, y - 26}, board_pin_of("+5 V, sensed"));
  all += to_ground({470, y}, capacitor({470, 538}, "10 uF")) + label({452, 526}, "middle", "+");
  all += to_ground({560, y}, capacitor({560, 538}, "100 nF"));
  all += to_ground({650, y}, resistor({650, 538}, "4.7 k"));
  return all + label({690, ground_bottom}, "start", "GND") +
         label({60, 618}, "start",
               fmt::format("No wire goes from {} to pin 24 itself. Resistors in ohms.", gate));
}

constexpr std::string_view style =
    "path,rect{fill:#fff;stroke:#000;stroke-width:1.5}text{font:13px sans-serif;fill:#000}"
    ".middle{text-anchor:middle}.end{text-anchor:end}";

}  // namespace

Html wiring_drawing() {
  Html all = element("title", "The wiring of the bench board") + element("style", style) + chip();
  for (const BenchWire& one : bench_wires())
    if (one.chip != supply_pin) all += wire(one);
  all += names_of_lines() + supply();
  return element("svg",
                 {{"xmlns", "http://www.w3.org/2000/svg"},
                  {"viewBox", fmt::format("0 0 {} {}", width, height)},
                  {"role", "img"}},
                 all);
}

}  // namespace rtcmend
