#include "forms/hex_token.h"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>

#include "base/text.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

/// The digits of a word that carries a mark for hex; empty when it carries none.
std::string_view marked_digits(std::string_view word) {
  for (const std::string_view mark : {"0x", "0X", "&H", "&h", "$"})
    if (word.size() > mark.size() && word.substr(0, mark.size()) == mark)
      return word.substr(mark.size());
  if (word.size() > 1 && (word.back() == 'h' || word.back() == 'H'))
    return word.substr(0, word.size() - 1);
  return {};
}

HexToken problem(std::string_view word, std::string_view what) {
  return {{}, fmt::format("{} {}", in_quotes(word), what)};
}

HexToken parse_marked(std::string_view word, std::string_view digits) {
  if (!all_hex(digits)) return problem(word, "is not hex");
  const auto value = parse_hex(digits, 0xFF);
  if (!value) return problem(word, "does not fit a byte");
  return {{static_cast<std::uint8_t>(*value)}, {}};
}

bool is_unknown(std::string_view pair) {
  return pair == "??" || pair == "--";
}

/// A dash that joins two bytes, and is not the first half of "--".
bool is_joint(std::string_view rest) {
  if (rest.size() < 3 || rest[0] != '-') return false;
  return rest[1] != '-' || rest.size() % 2 != 0;
}

}  // namespace

bool all_hex(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
    return std::isxdigit(static_cast<unsigned char>(c)) != 0;
  });
}

HexToken parse_hex_token(std::string_view word) {
  const std::string_view digits = marked_digits(word);
  if (!digits.empty()) return parse_marked(word, digits);
  if (all_hex(word) && word.size() % 2 != 0)
    return problem(word, "has an odd number of hex digits");
  HexToken token;
  std::string_view rest = word;
  while (!rest.empty()) {
    if (!token.bytes.empty() && is_joint(rest)) rest.remove_prefix(1);
    const std::string_view pair = rest.substr(0, 2);
    if (is_unknown(pair))
      token.bytes.emplace_back(std::nullopt);
    else if (pair.size() == 2 && all_hex(pair))
      token.bytes.emplace_back(static_cast<std::uint8_t>(*parse_hex(pair, 0xFF)));
    else
      return problem(word, "is not hex");
    rest.remove_prefix(2);
  }
  return token;
}

}  // namespace rtcmend
