#include "terminal/shorten.h"

#include <algorithm>
#include <array>
#include <cstdint>

namespace rtcmend {

namespace {

constexpr std::string_view gap = "...";

struct Stretch {
  std::uint32_t first, last;
};

// Unicode's EastAsianWidth.txt (W and F), its blocks taken whole.
constexpr std::array wide = {
    Stretch{0x1100, 0x115F},   Stretch{0x2E80, 0xA4CF},   Stretch{0xAC00, 0xD7A3},
    Stretch{0xF900, 0xFAFF},   Stretch{0xFE30, 0xFE6F},   Stretch{0xFF00, 0xFF60},
    Stretch{0xFFE0, 0xFFE6},   Stretch{0x1F300, 0x1F64F}, Stretch{0x1F900, 0x1F9FF},
    Stretch{0x20000, 0x3FFFD},
};
constexpr Stretch accents{0x0300, 0x036F};

bool is_continuation(char c) {
  return (static_cast<unsigned char>(c) & 0xC0) == 0x80;
}

/// The first letter of a text, as bytes: UTF-8, which printable() has made sure of.
std::string_view first_letter(std::string_view text) {
  std::size_t length = 1;
  while (length < text.size() && is_continuation(text[length])) ++length;
  return text.substr(0, length);
}

std::string_view last_letter(std::string_view text) {
  std::size_t at = text.size() - 1;
  while (at > 0 && is_continuation(text[at])) --at;
  return text.substr(at);
}

std::size_t columns_of_letter(std::string_view letter) {
  if (letter.size() == 1) return 1;
  std::uint32_t code = static_cast<unsigned char>(letter[0]) & (0x7FU >> letter.size());
  for (const char c : letter.substr(1)) code = code << 6 | (static_cast<unsigned char>(c) & 0x3FU);
  const auto holds = [&](const Stretch& one) { return code >= one.first && code <= one.last; };
  if (holds(accents)) return 0;
  return std::any_of(wide.begin(), wide.end(), holds) ? 2 : 1;
}

/// As much of the beginning as fits.
std::string_view beginning(std::string_view text, std::size_t most) {
  std::size_t length = 0, columns = 0;
  while (length < text.size()) {
    const std::string_view letter = first_letter(text.substr(length));
    columns += columns_of_letter(letter);
    if (columns > most) break;
    length += letter.size();
  }
  return text.substr(0, length);
}

std::string_view ending(std::string_view text, std::size_t most) {
  std::size_t from = text.size(), columns = 0;
  while (from > 0) {
    const std::string_view letter = last_letter(text.substr(0, from));
    columns += columns_of_letter(letter);
    if (columns > most) break;
    from -= letter.size();
  }
  return text.substr(from);
}

}  // namespace

std::size_t columns_of(std::string_view text) {
  std::size_t columns = 0;
  while (!text.empty()) {
    const std::string_view letter = first_letter(text);
    columns += columns_of_letter(letter);
    text.remove_prefix(letter.size());
  }
  return columns;
}

std::string shortened(std::string_view text, std::size_t most) {
  if (text.size() <= most || columns_of(text) <= most) return std::string(text);
  const std::size_t room = most - gap.size(), front = room / 3;
  std::string result(beginning(text, front));
  result += gap;
  return result += ending(text, room - front);
}

std::string cut_short(std::string_view text, std::size_t most) {
  if (text.size() <= most || columns_of(text) <= most) return std::string(text);
  return std::string(beginning(text, most - gap.size())) += gap;
}

}  // namespace rtcmend
