#include "terminal/code.h"

#include <fmt/format.h>

#include "base/text.h"
#include "render/chip_codes.h"
#include "terminal/heading.h"

namespace rtcmend {

namespace {

constexpr std::size_t page_width = 78;

/// Two modules a character, the upper and the lower; the light ones are drawn.
std::string_view block(bool upper_light, bool lower_light) {
  if (upper_light && lower_light) return "█";
  if (upper_light) return "▀";
  return lower_light ? "▄" : " ";
}

std::string drawing(const QrCode& code, const Ink& ink) {
  constexpr int from = -QrCode::quiet, to = QrCode::side + QrCode::quiet;
  std::string text;
  for (int row = from; row < to; row += 2) {
    std::string line;
    for (int column = from; column < to; ++column)
      line += block(!code.dark(row, column), !code.dark(row + 1, column));
    text += ink(Tone::picture, line) + "\n";
  }
  return text;
}

}  // namespace

std::string code_picture(const Card& card, const Ink& ink) {
  std::string text = heading(card, ink) + "\n";
  for (const std::string& warning : copying_warnings(card))
    text += ink(Tone::bad, fold(warning, page_width, 0)) + "\n\n";
  for (const ChipCode& code : chip_codes(card))
    text += code.caption + "\n\n" + drawing(code.code, ink) + "\n";
  return text + fold(about_codes(card), page_width, 0) + "\n" +
         fold(
             "Light on dark is how it must look: a terminal that writes dark on light needs colour "
             "(--color always), or shows it inverted, which not every reader takes.",
             page_width, 0) +
         "\n";
}

}  // namespace rtcmend
