#include "forms/line_address.h"

#include <algorithm>
#include <cctype>

#include "base/text.h"

namespace rtcmend {

namespace {

constexpr std::string_view blanks = " \t\f\v";

/// "1234:0100" with a blank behind, as debuggers print it; "00000000`00404040" as well.
std::optional<LineAddress> segmented(std::string_view line, std::size_t begin) {
  std::size_t at = begin;
  const auto run = [&] {
    const std::size_t from = at;
    while (at < line.size() && is_hex_digit(line[at])) ++at;
    return line.substr(from, at - from);
  };
  const std::string_view segment = run();
  if (at >= line.size() || (line[at] != ':' && line[at] != '`')) return std::nullopt;
  const bool wide = line[at] == '`';
  ++at;
  const std::string_view offset = run();
  if (segment.size() != (wide ? 8U : 4U) || offset.size() != segment.size()) return std::nullopt;
  if (at < line.size() && blanks.find(line[at]) == std::string_view::npos) return std::nullopt;
  return LineAddress{offset, Mark::hex, wide ? std::string_view{} : segment, {}, at};
}

/// The address at the end of what stands in front of a colon, an equals sign or an arrow.
std::optional<LineAddress> address_in(std::string_view left) {
  left = without_last(left, blanks);
  // A debugger names the variable: "0x404040 <cmos+16>:".
  if (left.ends_with('>') && left.find('<') != std::string_view::npos)
    left = without_last(left.substr(0, left.rfind('<')), blanks);
  left = without_last(left, " \t])'\"*`");
  std::size_t begin = left.size();
  while (begin > 0 && (std::isalnum(static_cast<unsigned char>(left[begin - 1])) != 0 ||
                       left[begin - 1] == '$' || left[begin - 1] == '&'))
    --begin;
  std::string_view word = left.substr(begin);
  auto number = number_in(word);
  if (!number) {
    // "R10", "reg10": letters, then digits.
    const std::size_t digits = word.find_first_of("0123456789");
    if (digits == std::string_view::npos || digits == 0) return std::nullopt;
    begin += digits;
    word = word.substr(digits);
    number = number_in(word);
    if (!number) return std::nullopt;
  }
  if (number->negative || number->digits.find_first_of("?-xX") != std::string_view::npos)
    return std::nullopt;
  const std::string_view label = trim(left.substr(0, begin));
  constexpr std::size_t longest_label = 24;
  if (label.size() > longest_label) return std::nullopt;
  // Numbers in front are no label, but a row of bytes with a colon somewhere behind.
  if (label.find_first_of("0123456789,") != std::string_view::npos) return std::nullopt;
  return LineAddress{number->digits, number->mark, {}, label, 0};
}

}  // namespace

std::size_t indent(std::string_view line) {
  return std::min(line.find_first_not_of(blanks), line.size());
}

std::string_view without_last(std::string_view text, std::string_view set) {
  const auto last = text.find_last_not_of(set);
  return text.substr(0, last == std::string_view::npos ? 0 : last + 1);
}

std::optional<LineAddress> marked_address(std::string_view line) {
  if (const auto found = segmented(line, indent(line))) return found;
  std::size_t delimiter = std::min(line.find_first_of(":="), line.find(") "));
  std::size_t length = 1;
  const std::size_t arrow = std::min(line.find("->"), line.find("=>"));
  if (arrow != std::string_view::npos && arrow <= delimiter) {
    delimiter = arrow;
    length = 2;
  }
  if (delimiter == std::string_view::npos) return std::nullopt;
  auto found = address_in(line.substr(0, delimiter));
  if (!found) return std::nullopt;
  found->rest = delimiter + length;
  return found;
}

std::optional<LineAddress> bare_address(std::string_view line) {
  const std::size_t begin = indent(line);
  const std::size_t end = std::min(line.find_first_of(" \t\f\v,;", begin), line.size());
  std::string_view word = line.substr(begin, end - begin);
  word = trim(word);
  while (!word.empty() && (word.front() == '"' || word.front() == '\'')) word.remove_prefix(1);
  word = without_last(word, "\"'");
  const auto number = number_in(word);
  if (!number || number->negative || !all_hex(number->digits)) return std::nullopt;
  return LineAddress{number->digits, number->mark, {}, {}, end};
}

}  // namespace rtcmend
