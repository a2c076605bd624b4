#include "terminal/chips.h"

#include <fmt/format.h>

#include "base/text.h"
#include "layout/parts_catalogue.h"
#include "render/part_words.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

constexpr std::size_t text_column = 17;

std::string clear_word(const Part& part) {
  if (!part.ram_clear) return "none";
  return part.ram_clear_pin ? fmt::format("pin {}", *part.ram_clear_pin) : "yes";
}

std::string line(std::string_view word, std::string_view text) {
  return fmt::format("  {} {}\n", dotted(word, text_column - 3), hanging(text, text_column));
}

std::string package_text(const Part& part) {
  switch (part.package) {
    case Package::bare:
      return "bare: crystal and cell stand outside";
    case Package::potted:
      return "potted: crystal and cell are cast in, and the cell cannot be changed without "
             "cutting";
    case Package::module:
      break;
  }
  return "a module with crystal and cell";
}

std::string clear_text(const Part& part) {
  if (!part.ram_clear) return "no input for it";
  return fmt::format(
      "{}: pulled low without power it sets every RAM byte to FFh, so the board must "
      "leave it open",
      part.ram_clear_pin ? fmt::format("pin {}", *part.ram_clear_pin) : "an input");
}

std::string feed_text(const Part& part) {
  if (!part.cell_input) return "not known here: do no work on it by guess";
  const CellInput& input = *part.cell_input;
  return fmt::format("plus at pin {}, minus at pin {}, {:.1f} to {:.1f} V there; {} ({})",
                     input.plus, input.minus, input.least_volts, input.most_volts,
                     input.between == Between::nothing
                         ? "it switches over by itself, nothing need stand between"
                         : "a diode and a resistor must keep +5 V from the cell",
                     input.source);
}

std::string divider_text(const Part& part) {
  std::vector<std::string> patterns;
  for (const int divider : part.running_dividers)
    patterns.push_back(fmt::format("{:03b}", divider));
  return join(patterns, ", ") + " in bits 6-4 of 0Ah";
}

std::string facts(const Part& part) {
  std::string text =
      line("RAM", fmt::format("{} bytes; {} with clock and registers", part.ram_bytes, part.size));
  text += line("package", package_text(part));
  text += line("cell", cell_word(part.cell));
  text += line("fed from it", feed_text(part));
  text += line("century",
               part.keeps_century ? "counted by the part itself, at 32h" : "left to the firmware");
  text += line("RAM clear", clear_text(part));
  if (part.ships_stopped)
    text += line("when new", "its oscillator is off until 010 is written to bits 6-4 of 0Ah");
  if (part.trickle_charger)
    text += line("charger", "a trickle charger is built in: never a plain lithium coin cell");
  text += line("it counts with", divider_text(part));
  if (!part.daylight_saving.empty())
    text += line("summer time", fmt::format("DSE takes an hour on the {} ({})",
                                            part.daylight_saving, part.daylight_source));
  if (part.package == Package::bare)
    text += line("out of socket", "it forgets everything at once: its cell stands on the board");
  for (const std::string& note : part.notes) text += line("note", note);
  return text + line("source", part.source);
}

std::string other_part(const std::string& name, const Replacement& how) {
  return fmt::format("  {:<{}}{}\n", name, text_column - 2,
                     hanging(fmt::format("{} ({})", how.changes, how.source), text_column));
}

std::string replaced(const Part& part, const Ink& ink) {
  if (part.replaces.empty()) return {};
  std::string text = ink(Tone::strong, "It can take the place of") + "\n";
  for (const Replacement& other : part.replaces) text += other_part(other.part, other);
  return text;
}

std::string replacing(const Part& part, const Ink& ink) {
  const auto found = successors(part);
  if (found.empty()) return {};
  std::string text = ink(Tone::strong, "Its place can be taken by") + "\n";
  for (const Successor& other : found) text += other_part(other.part->name, *other.how);
  return text;
}

std::string pins_text(const Part& part, const Ink& ink) {
  if (part.pins.empty())
    return hanging("Its pins are not known here: look them up in its data sheet.", 0) + "\n";
  std::string text = ink(Tone::strong, "Its pins") + "\n";
  for (const Pin& pin : part.pins)
    text += fmt::format("  {:<{}}{}\n", pin.pin, text_column - 2, hanging(pin.what, text_column));
  return text + line("source", part.pins_source);
}

}  // namespace

std::string chips_text(const std::vector<Part>& parts, const Ink& ink) {
  std::string text = fmt::format("  {:<11} {:>9}  {:<8} {:<13} {:<9} {:<10} {}\n", "part", "RAM",
                                 "package", "cell", "century", "RAM clear", "charger");
  for (const Part& part : parts)
    text += fmt::format("  {} {:>3} bytes  {:<8} {:<13} {:<9} {:<10} {}\n",
                        ink(Tone::strong, fmt::format("{:<11}", part.name)), part.ram_bytes,
                        package_word(part.package), cell_word(part.cell),
                        part.keeps_century ? "at 32h" : "firmware", clear_word(part),
                        part.trickle_charger ? "trickle" : "none");
  return text + "\n" +
         hanging(
             "RAM leaves out the 14 bytes of clock and registers. \"rtcmend chips PART\" says "
             "what a part replaces and what then changes.",
             0) +
         "\n";
}

std::string chip_text(const Part& part, const Ink& ink) {
  std::string text = ink(Tone::strong, part.name) + "\n" + facts(part);
  text += replaced(part, ink) + replacing(part, ink);
  return text + pins_text(part, ink);
}

}  // namespace rtcmend
