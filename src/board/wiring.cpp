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
    {"D8", "PB0", 4, "AD0", in_series},
    {"D9", "PB1", 5, "AD1", in_series},
    {"D2", "PD2", 6, "AD2", in_series},
    {"D3", "PD3", 7, "AD3", in_series},
    {"D4", "PD4", 8, "AD4", in_series},
    {"D5", "PD5", 9, "AD5", in_series},
    {"D6", "PD6", 10, "AD6", in_series},
    {"D7", "PD7", 11, "AD7", in_series},
    {"GND", "", 12, "ground", ""},
    {"A0", "PC0", 13, "CS", "10 kOhm to pin 24"},
    {"D10", "PB2", 14, "AS", "10 kOhm to ground"},
    {"D12", "PB4", 15, "R/W", "10 kOhm to pin 24"},
    {"D11", "PB3", 17, "DS", "10 kOhm to pin 24"},
    {"", "", 18, "RESET", "10 kOhm to pin 24; no wire to the board"},
    {"A5", "PC5", 24, "+5 V, sensed",
     "10 uF (its plus at pin 24), 100 nF and 4.7 kOhm, each to ground"},
    {"A1", "PC1", 24, "+5 V, switched",
     "never A1 to pin 24 itself: A1 to the gate of the transistor and by 10 kOhm to 5V; its source "
     "to 5V, its drain by 10 ohm to pin 24"},
};

constexpr BenchItem items[] = {
    {"a board with an ATmega328P at 16 MHz and 5 V, with USB serial",
     "not one of 3.3 V, and none that feeds its 5V pin through a diode: below 4.5 V the firmware "
     "refuses, and a chip may lock itself (near 4.25 V, from memory)"},
    {"a socket of 24 pins, 15.2 mm (0.6 inch) wide",
     "the chip goes in and out with the board's USB cable unplugged, never otherwise"},
    {"a P-channel MOSFET for logic levels (fully on with 4.5 V between gate and source), 0.5 A or "
     "more",
     "its data sheet says which leg is gate, drain and source. It switches the chip's supply; its "
     "body diode points from drain to source, so that it blocks"},
    {"8 resistors of 220 ohm", "in the data wires"},
    {"6 resistors of 10 kOhm", "keep the lines and the gate where they are safe"},
    {"1 resistor of 4.7 kOhm", "empties the capacitors when the supply goes"},
    {"1 resistor of 10 ohm",
     "in the supply: limits what a chip the wrong way round draws until the switch lets go; the "
     "chip may be lost all the same"},
    {"10 uF of 10 V or more, and 100 nF",
     "an electrolytic has a plus, which goes to pin 24; with both the supply takes longer than 300 "
     "us to fall through the switch-over (DS12885, tF)"},
    {"a meter", "for what is checked before the chip goes in"},
};

constexpr std::string_view checks[] = {
    // Each in parentheses: a comma that is missing would join two.
    ("Board unplugged, socket empty. Between any two neighbours of the pins 4 to 11: open."),
    ("Pin 1 and pin 12 to the board's GND: under 1 ohm. An open ground would feed the chip through "
     "its data pins."),
    ("Each wire from the board's pin to the socket's, by its number: about 220 ohm for D2 to D9, "
     "under 1 ohm for A0, A5, D10, D11 and D12. Take your time with D11 (pin 17) and D12 (pin 15): "
     "nothing else finds these two exchanged, and the first reading would then write."),
    ("The meter's red lead on 5V, then on A1, the black one on pin 24: above 1 kOhm. Less is a "
     "wire "
     "that goes past the switch."),
    ("The black lead on pin 12, the red one on pin 24: above 1 kOhm once the reading stands (the "
     "4.7 kOhm, and what the board has beside it)."),
    ("Pins 2, 3, 16, 19, 20, 21, 22 and 23 have no wire at all. A wire at 20 could charge a cell, "
     "one at 21 clears the memory of a part with RAM clear."),
    ("Board plugged in, firmware on it, socket still empty: the LED of pin 13 (mostly marked L; "
     "not "
     "the one that shows power) is dark, pin 24 has less than 0.1 V against pin 12, and no other "
     "pin of the socket has more."),
    ("The 5V pin of the board has 4.75 V to 5.25 V by the meter: the firmware's own reading may be "
     "a tenth off."),
    ("Socket still empty: a reading is refused with \"no chip answers\". Another message says what "
     "to look at first."),
    ("Unplug the board, put the chip in with pin 1 where the notch is, look twice, plug in again."),
};

constexpr std::string_view other_pins =
    "a part for a crystal beside it, with other pins at its cell's end: not for this wiring";
constexpr std::string_view bare_forgets =
    "its cell and its crystal stay on its own board: in this socket its clock stands, and it "
    "forgets "
    "everything when the supply goes";
constexpr std::string_view unknown_pins =
    "its pins are not known here: not without its data sheet beside this table";
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
    {"DS12R885", false, "comes in small packages only (from memory), for no such socket"},
    {"DS12CR887", false,
     "its pins are not known here, and it charges its own cell: never a plain lithium cell in it"},
    {"DS12R887", false, "a module in another package"},
    {"BQ3285", false, bare_forgets},
    {"BQ3285E", false, bare_forgets},
    {"BQ3287", true, "said to have these pins; hold its data sheet beside the table first"},
    {"BQ4285", false, bare_forgets},
    {"M48T86", false, unknown_pins},
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
