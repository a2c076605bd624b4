#include "board/wiring.h"

#include <fmt/format.h>
#include <iterator>

namespace rtcmend {

namespace {

// The chip's pins: DS12885 and DS12B887 data sheets. The board's: ATmega328P as on the common board
// with numbered pins. Values of the parts beside: common practice, no source, but for what is
// named.
constexpr std::string_view in_series = "220 ohm in the wire";
constexpr BenchWire wires[] = {
    {"GND", "", 1, "MOT", "to ground: the bus of two strobes"},
    {"8", "PB0", 4, "AD0", in_series},
    {"9", "PB1", 5, "AD1", in_series},
    {"2", "PD2", 6, "AD2", in_series},
    {"3", "PD3", 7, "AD3", in_series},
    {"4", "PD4", 8, "AD4", in_series},
    {"5", "PD5", 9, "AD5", in_series},
    {"6", "PD6", 10, "AD6", in_series},
    {"7", "PD7", 11, "AD7", in_series},
    {"GND", "", 12, "ground", ""},
    {"A0", "PC0", 13, "CS", "10 kOhm to pin 24"},
    {"10", "PB2", 14, "AS", "10 kOhm to ground"},
    {"12", "PB4", 15, "R/W", "10 kOhm to pin 24"},
    {"11", "PB3", 17, "DS", "10 kOhm to pin 24"},
    {"", "", 18, "RESET", "10 kOhm to pin 24; no wire to the board"},
    {"A5", "PC5", 24, "+5 V, sensed", "10 uF, 100 nF and 4.7 kOhm, each to ground"},
    {"A1", "PC1", 24, "+5 V, switched",
     "A1 to the gate of the transistor and by 10 kOhm to 5V; its source to 5V, its drain by 10 ohm "
     "to pin 24"},
};

constexpr BenchItem items[] = {
    {"a board with an ATmega328P at 16 MHz and 5 V, with USB serial",
     "not one of 3.3 V, and none that feeds its 5V pin through a diode: the chip wants 4.5 V"},
    {"a socket of 24 pins, 15.2 mm (0.6 inch) wide",
     "the chip never goes in while the light is on"},
    {"a P-channel MOSFET that is fully on at 4.5 V at its gate, 0.5 A or more",
     "switches the chip's supply; its body diode points from drain to source, so that it blocks"},
    {"8 resistors of 220 ohm", "in the data wires"},
    {"6 resistors of 10 kOhm", "keep the lines and the gate where they are safe"},
    {"1 resistor of 4.7 kOhm", "empties the capacitors when the supply goes"},
    {"1 resistor of 10 ohm", "in the supply, for a chip that sits the wrong way round"},
    {"10 uF and 100 nF",
     "the supply falls slower than 300 us through the switch-over (DS12885, tF)"},
    {"a meter", "for what is checked before the chip goes in"},
};

constexpr std::string_view checks[] = {
    // Each in parentheses: a comma that is missing would join two.
    ("Board unplugged, socket empty: no connection between pin 24 and pin 12 but the 4.7 kOhm, and "
     "none between any two neighbours of the pins 4 to 11."),
    ("Each wire from the board's pin to the socket's: about 220 ohm for AD0 to AD7, none for the "
     "others. Pin 1 and pin 12 to GND: nothing."),
    ("Pins 2, 3, 16, 19, 20, 21, 22 and 23 have no wire at all. A wire at 20 could charge a cell, "
     "one "
     "at 21 wipes the memory."),
    ("Board plugged in, firmware on it, socket still empty: the light is dark, pin 24 has less "
     "than "
     "0.1 V against pin 12, and no other pin of the socket has more."),
    ("The 5V pin of the board has 4.75 V to 5.25 V."),
    ("Socket still empty: a reading is refused with \"no chip answers\". Any other message names "
     "the "
     "wire that is wrong."),
    ("Unplug the board, put the chip in with pin 1 where the notch is, look twice, plug in again."),
};

constexpr std::string_view other_pins =
    "other pins and no input for a cell: this wiring would harm it";
constexpr std::string_view bare_forgets =
    "its cell stays on its own board: in this socket it forgets everything when the supply goes";
constexpr std::string_view charger =
    "comes in other packages or for 3.3 V as well: only the 5 V "
    "version in a package of 24 pins";
constexpr std::string_view banked =
    "its bytes lie in banks, behind registers that this firmware does not know";

constexpr BoardFit fits[] = {
    {"MC146818", false, other_pins},
    {"MC146818A", false, other_pins},
    {"HD146818", false, other_pins},
    {"DS1285", false, bare_forgets},
    {"DS1287", true, ""},
    {"DS1287A", true, ""},
    {"DS12885", false, bare_forgets},
    {"DS12887", true, ""},
    {"DS12887A", true, ""},
    {"DS12C887", true, "counts the century at 32h itself"},
    {"DS12C887A", true, "counts the century at 32h itself"},
    {"DS12B887", false, "its upper bank is reached through AD6, which this firmware does not do"},
    {"DS12R885", false, "comes in small packages only, for no such socket"},
    {"DS12CR887", true, charger},
    {"DS12R887", false, "a module in another package"},
    {"BQ3285", false, bare_forgets},
    {"BQ3285E", false, bare_forgets},
    {"BQ3287", true, ""},
    {"BQ4285", false, bare_forgets},
    {"M48T86", true, "leave its snap-on top on while it is written"},
    {"DS1685", false, banked},
    {"DS1687", false, banked},
    {"DS17885", false, banked},
    {"DS17887", false, banked},
};

}  // namespace

std::span<const BenchWire> bench_wires() {
  return wires;
}

std::span<const BenchItem> shopping_list() {
  return items;
}

std::span<const std::string_view> checks_before_the_chip() {
  return checks;
}

std::span<const BoardFit> board_fits() {
  return fits;
}

const BoardFit* board_fit(std::string_view part) {
  for (const BoardFit& fit : fits)
    if (fit.part == part) return &fit;
  return nullptr;
}

std::string spoken_line(int line) {
  constexpr struct {
    std::string_view name;
    int pin;
  } lines[] = {{"AD0", 4},  {"AD1", 5},  {"AD2", 6}, {"AD3", 7}, {"AD4", 8}, {"AD5", 9},
               {"AD6", 10}, {"AD7", 11}, {"AS", 14}, {"DS", 17}, {"CS", 13}, {"R/W", 15}};
  if (line < 0 || line >= static_cast<int>(std::size(lines))) return "an unknown line";
  return fmt::format("{} (pin {})", lines[line].name, lines[line].pin);
}

}  // namespace rtcmend
