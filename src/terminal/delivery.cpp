#include "terminal/delivery.h"

#include <fmt/format.h>

#include "base/text.h"
#include "terminal/advice.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

std::string numbered(const std::vector<Advice>& lines) {
  std::string text;
  for (std::size_t i = 0; i < lines.size(); ++i)
    text += fmt::format(" {:>2}. {}\n", i + 1, hanging(advice_text(lines[i]), 5));
  return text;
}

std::string listed(const std::vector<Advice>& lines) {
  std::string text;
  for (const Advice& line : lines) text += fmt::format("  -  {}\n", hanging(advice_text(line), 5));
  return text;
}

std::string size_text(const Delivery& delivery) {
  std::string text = fmt::format("{} bytes", delivery.content.size());
  if (delivery.keystrokes > 0) text += fmt::format(", {} keystrokes", delivery.keystrokes);
  return text;
}

std::string way_line(const WayFigures& way) {
  if (way.keystrokes == 0)
    return fmt::format("{:<17} {:>8} {:>6} {:>6} {:>6}  {}\n", name(way.way), way.bytes, "-", "-",
                       "-", way.least_because);
  return fmt::format("{:<17} {:>8} {:>6} {:>6.1f} {:>6}  {}\n", name(way.way), way.bytes,
                     way.keystrokes, keystrokes_per_byte(way), way.least,
                     hanging(way.least_because, 49));
}

}  // namespace

std::string carried_text(const Carried& carried, const Ink& ink) {
  const Delivery& delivery = carried.delivery;
  std::string text = fmt::format("Wrote {}: {} ({}).\n", printable(carried.output), carried.what,
                                 size_text(delivery));
  text += "\n" + ink(Tone::strong, "What to do") + "\n" + numbered(delivery.steps);
  text += "\n" + ink(Tone::strong, "Beware") + "\n" + listed(delivery.cautions);
  if (!delivery.sheet.empty())
    text +=
        "\n" +
        hanging(printable(carried.output) +
                    " holds the typing sheet, to be printed: how to begin and end, the lines in "
                    "groups, the letters that find a slip, and the screen when right and when "
                    "wrong.",
                0) +
        "\n";
  return text;
}

std::string written_bytes_text(const Delivery& delivery) {
  const char* why = delivery.left_alone.empty() ? "" : " (the dump does not know them)";
  return fmt::format("Check code of the image: {:04X}. RAM bytes left alone: {}{}.\n",
                     delivery.code, to_prose(delivery.left_alone), why);
}

std::string ways_text(const std::vector<WayFigures>& figures) {
  std::string text = "Ways into the machine, for 50 RAM bytes that are as hard to type as any:\n\n";
  text += fmt::format("{:<17} {:>8} {:>6} {:>6} {:>6}  {}\n", "way", "bytes", "keys", "a byte",
                      "least", "because");
  for (const WayFigures& way : figures) text += way_line(way);
  return text +
         "\nEach of them can read a chip out as well: rtcmend capture --as WAY.\n"
         "With the chip in your hand, a small board reads and writes it: rtcmend board wiring.\n";
}

}  // namespace rtcmend
