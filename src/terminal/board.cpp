#include "terminal/board.h"

#include <cmath>
#include <fmt/format.h>

#include "chip/cautions.h"
#include "chip/registers.h"
#include "terminal/columns.h"
#include "terminal/shell_word.h"
#include "upkeep/drift.h"

namespace rtcmend {

namespace {

constexpr std::string_view never =
    "Unplug the board's USB cable before the chip goes in or out and before a wire or a part is "
    "touched or soldered; a light that is dark is not enough. Never the chip the wrong way round, "
    "never on the board and in the machine at once. Leads of a cell that was mended on must touch "
    "neither socket nor board. A chip with a dead cell forgets each time the board is plugged in "
    "or "
    "reset: read it before anything else; and what is written into it is lost when it leaves the "
    "socket: the cell comes first.";

constexpr std::string_view proven =
    "Wiring and firmware were proven in simulation, with no real board and no real chip: slopes of "
    "the supply, leakage and a chip's own timing cannot be proven so. Values of resistors and "
    "transistor are common practice, without a published source. Measure what stands below.";

std::string section(std::string_view title, const Ink& ink) {
  return "\n" + ink(Tone::strong, title) + "\n";
}

std::string point(std::string_view text) {
  return "  - " + hanging(text, 4) + "\n";
}

/// The end of a wire on the board, as the drawing has it.
std::string board_end(int pin) {
  std::string ends;
  if (pin == 24) return "its supply: below";
  for (const BenchWire& wire : bench_wires())
    if (wire.chip == pin && !wire.board.empty())
      ends += (ends.empty() ? "" : "+") + std::string(wire.board);
  return ends;
}

std::string_view line_at(int pin) {
  for (const BenchWire& wire : bench_wires())
    if (wire.chip == pin) return pin == 24 ? "+5 V" : wire.line;
  return "";
}

constexpr std::string_view supply_drawing = R"(
  The supply of pin 24. No wire goes from A1 to pin 24 itself.

     5V ---+--------------- source \
           |                         > P-channel MOSFET
        10 kOhm                     /
           |                       /
     A1 ---+--------------- gate  /
                            drain --- 10 ohm ---+--- pin 24
                                                +--- A5
                                                +--- + 10 uF - --- GND
                                                +--- 100 nF ------ GND
                                                +--- 4.7 kOhm ---- GND
)";

/// The chip from above, notch up, each wired pin with its line and the board's pin.
std::string drawing() {
  constexpr int pins = 24;
  std::string text = "              board          chip, from above       board\n";
  text += "                         +--------\\_/--------+\n";
  for (int left = 1; left <= pins / 2; ++left) {
    const int right = pins + 1 - left;
    const std::string from = board_end(left), to = board_end(right);
    text += fmt::format("  {:>17} {:5} | {:>2} {:<6} {:>6} {:>2} |{}\n", from,
                        from.empty() ? "" : "-----", left, line_at(left), line_at(right), right,
                        to.empty() ? "" : " ----- " + to);
  }
  return text + "                         +-------------------+\n" + std::string(supply_drawing);
}

std::string table() {
  std::string text = "  chip  line             board  beside\n";
  for (const BenchWire& wire : bench_wires())
    text += fmt::format("  {:>4}  {:<15}  {:<5}  {}\n", wire.chip, wire.line, wire.board,
                        hanging(wire.beside, 32));
  return text;
}

std::string fit_line(const BoardFit& fit) {
  return fmt::format("  {:<10} {:<6} {}\n", fit.part, fit.fits ? "fits" : "never",
                     hanging(fit.why, 20));
}

std::string gains(const ClockRate& rate) {
  const double a_day = rate.ppm * 86'400e-6;
  return fmt::format(
      "The clock {} {:.2f} s a day: {:+.2f} ppm, give or take {:.2f}, from {} seconds' "
      "ends over {:.0f} s.",
      rate.ppm < 0 ? "loses" : "gains", std::abs(a_day), rate.ppm, rate.uncertainty, rate.edges,
      rate.seconds);
}

std::string_view against_limits(const ClockRate& rate) {
  switch (verdict_on_rate(rate.ppm, rate.uncertainty)) {
    case DriftVerdict::within:
      return "Within its limits:";
    case DriftVerdict::outside:
      return "Outside its limits:";
    case DriftVerdict::at_the_limit:
      return "Just at the limit:";
    default:
      return "Watched too shortly to tell:";
  }
}

}  // namespace

std::string wiring_text(const BoardFit* part, const Ink& ink) {
  // A part that must not go in gets no wires that could be followed.
  if (part != nullptr && !part->fits)
    return fmt::format("{} must not go into this socket: {}.\n", part->part, hanging(part->why, 2));
  std::string text = ink(Tone::strong, "Cautions") + "\n";
  for (const Caution& caution : bench_cautions())
    text += "  " + hanging(caution.topic + ": " + caution.text, 4) + "\n";
  text += "  " + hanging("On this bench: " + std::string(never), 4) + "\n";
  text += "  " + hanging(cautions_limit(), 2) + "\n";
  text += section("How far this is proven", ink) + "  " + hanging(proven, 2) + "\n";
  text += section("What it takes", ink);
  for (const BenchItem& item : shopping_list())
    text += point(std::string(item.what) + ": " + std::string(item.why));
  text += section("Drawing", ink) + drawing();
  text += section("Wires", ink) + table();
  text += section("Before the chip goes in", ink);
  for (const std::string_view check : checks_before_the_chip()) text += point(check);
  text += section("Parts", ink);
  if (part != nullptr) return text + fit_line(*part);
  for (const BoardFit& fit : board_fits()) text += fit_line(fit);
  return text;
}

std::string chip_read_text(const ChipRead& read, const std::string& saved) {
  std::string text =
      fmt::format("Read {} bytes from the chip{}.\n", read.image.size(),
                  saved == "-" ? std::string() : "; they are in " + shell_word(saved));
  for (const std::string& remark : read.remarks) text += hanging(remark, 0) + "\n";
  if (!decode_d(read.image[reg::d]).valid)
    text += hanging(
                "The chip says that its cell is flat or absent (0Dh bit 7 is 0): what was read "
                "may be noise, and what is written is lost when the board lets go of it. First "
                "see to the cell (\"rtcmend plan\").",
                0) +
            "\n";
  return text;
}

std::string firmware_text(const std::string& file) {
  return fmt::format(
      "The firmware is in {}. Put it on the board through its own boot loader, the chip not in "
      "its\n"
      "socket (the port and the speed, 115200 or 57600, are the board's own):\n\n"
      "  avrdude -p m328p -c arduino -P /dev/ttyUSB0 -b 115200 -D -U flash:w:{}:i\n",
      shell_word(file), shell_word(file));
}

std::string clock_on_bench_text(const ClockOnBench& clock) {
  std::string text;
  if (clock.shown)
    text += fmt::format("The chip shows {} when this computer shows {}.\n", to_iso(*clock.shown),
                        to_iso(clock.reference));
  else
    text += "The chip shows no date and time that can be.\n";
  if (!clock.rate) return text + "Too few seconds were seen to tell its rate.\n";
  text += hanging(gains(*clock.rate), 0) + "\n";
  return text +
         hanging(fmt::format("{} a potted module may be off by one minute in 30 days ({:.1f} "
                             "ppm; DS12885, at 25 C). This computer's own clock is taken as "
                             "right: have it set by the network.",
                             against_limits(*clock.rate), module_ppm),
                 0) +
         "\n";
}

}  // namespace rtcmend
