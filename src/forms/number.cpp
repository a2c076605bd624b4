#include "forms/number.h"

#include <algorithm>
#include <cctype>
#include <charconv>

namespace rtcmend {

namespace {

struct Prefix {
  std::string_view text;
  Mark mark;
};
// As C, Pascal, assemblers and BASIC write them.
constexpr Prefix prefixes[] = {{"0x", Mark::hex},    {"0X", Mark::hex},    {"\\x", Mark::hex},
                               {"$", Mark::hex},     {"&H", Mark::hex},    {"&h", Mark::hex},
                               {"0b", Mark::binary}, {"0B", Mark::binary}, {"0o", Mark::octal},
                               {"&O", Mark::octal},  {"&o", Mark::octal}};

bool all_in(std::string_view text, std::string_view set) {
  return !text.empty() && text.find_first_not_of(set) == std::string_view::npos;
}

/// Hex digits and pairs of signs for unknown bytes.
bool is_group(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::string_view pair = text.substr(at, 2);
    if (pair == "??" || pair == "--" || pair == "xx" || pair == "XX")
      at += 2;
    else if (is_hex_digit(text[at]))
      ++at;
    else
      return false;
  }
  return !text.empty();
}

std::string_view digits_of(Mark mark) {
  if (mark == Mark::binary) return "01";
  if (mark == Mark::octal) return "01234567";
  return "0123456789abcdefABCDEF";
}

std::optional<Number> marked(std::string_view word) {
  for (const Prefix& prefix : prefixes) {
    if (!word.starts_with(prefix.text)) continue;
    const std::string_view digits = without_suffix(word.substr(prefix.text.size()));
    // 0B00 is a word in hex, too, so a binary number has all digits of its bytes.
    if (prefix.mark == Mark::binary && (digits.size() % 8 != 0)) continue;
    if (all_in(digits, digits_of(prefix.mark))) return Number{digits, prefix.mark};
  }
  const bool suffixed = word.size() > 1 && (word.back() == 'h' || word.back() == 'H');
  const std::string_view digits = word.substr(0, word.size() - (suffixed ? 1 : 0));
  // A number that begins with a letter is written with a 0 in front: 0FFh.
  if (suffixed && all_hex(digits)) {
    const bool zero = digits.size() % 2 != 0 && digits.size() > 1 && digits.front() == '0';
    return Number{digits.substr(zero ? 1 : 0), Mark::hex, false, zero};
  }
  return std::nullopt;
}

}  // namespace

std::string_view without_suffix(std::string_view word) {
  for (const std::string_view suffix : {"u8", "u16", "u32"})
    if (word.size() > suffix.size() && word.ends_with(suffix))
      return word.substr(0, word.size() - suffix.size());
  while (word.size() > 1 && std::string_view("uUlL").find(word.back()) != std::string_view::npos)
    word.remove_suffix(1);
  return word;
}

bool is_hex_digit(char c) {
  return std::isxdigit(static_cast<unsigned char>(c)) != 0;
}

bool all_hex(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), is_hex_digit);
}

std::optional<Number> number_in(std::string_view word) {
  if (word.empty()) return std::nullopt;
  if (const auto number = marked(word)) return number;
  if (word.size() > 1 && word.front() == '-' && all_in(word.substr(1), "0123456789"))
    return Number{word.substr(1), Mark::none, true};
  if (is_group(word)) return Number{word, Mark::none};
  return std::nullopt;
}

std::optional<std::uint64_t> value_in(std::string_view digits, int radix) {
  std::uint64_t value = 0;
  const char* end = digits.data() + digits.size();
  const auto [stop, failure] = std::from_chars(digits.data(), end, value, radix);
  if (digits.empty() || failure != std::errc{} || stop != end) return std::nullopt;
  return value;
}

}  // namespace rtcmend
