#include "terminal/retention.h"

#include <fmt/format.h>

#include "terminal/advice.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

Tone tone_of(Retained what) {
  if (what == Retained::everything) return Tone::good;
  return what == Retained::firmware_rewrote ? Tone::doubtful : Tone::bad;
}

std::string line(std::string_view word, std::string_view text) {
  return fmt::format("  {:<8}{}\n", word, hanging(text, 10));
}

constexpr std::string_view low_words =
    "VRT (0Dh bit 7) reads 0: the chip itself says that its cell was too low or absent.";

}  // namespace

std::string retention_text(const Retention& retention, const Ink& ink) {
  std::string text = ink(Tone::strong, "Without power") + "\n";
  text += "  " + ink(tone_of(retention.what), hanging(retention.text, 2)) + "\n";
  if (retention.cell_low) text += line("cell", low_words);
  if (!retention.clock_text.empty() && retention.what != Retained::clock_lost)
    text += line("clock", retention.clock_text);
  return text + line("next", advice_text(retention.next));
}

}  // namespace rtcmend
