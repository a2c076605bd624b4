#include "forms/c_array.h"

#include <algorithm>
#include <fmt/format.h>
#include <vector>

#include "base/error.h"
#include "base/text.h"
#include "forms/raw.h"
#include "forms/sizes.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

/// A text that remembers which file it came from, so that a place in it can be named.
struct Source {
  std::string text;
  std::string where;

  std::string place_of(std::size_t position) const {
    const auto end = text.begin() + static_cast<std::ptrdiff_t>(std::min(position, text.size()));
    return place(where, 1 + static_cast<std::size_t>(std::count(text.begin(), end, '\n')));
  }
};

/// The same lines at the same numbers, ended by LF, or the refusal of source_lines().
std::string normal_text(std::string_view content, const std::string& where) {
  std::string text;
  std::size_t number = 1;
  for (const SourceLine& line : source_lines(content, where)) {
    text.append(line.number - number, '\n');
    number = line.number;
    text += line.text;
  }
  return text;
}

/// Comments as blanks, so that places stay where they are.
void blank_comments(Source& source) {
  std::string& text = source.text;
  std::size_t at = 0;
  while ((at = text.find('/', at)) != std::string::npos && at + 1 < text.size()) {
    std::size_t end = at + 1;
    if (text[at + 1] == '/') {
      end = std::min(text.find('\n', at), text.size());
    } else if (text[at + 1] == '*') {
      end = text.find("*/", at + 2);
      if (end == std::string::npos) refuse(source.place_of(at), "a comment is not closed");
      end += 2;
    }
    if (end > at + 1)
      std::replace_if(
          text.begin() + static_cast<std::ptrdiff_t>(at),
          text.begin() + static_cast<std::ptrdiff_t>(end), [](char c) { return c != '\n'; }, ' ');
    at = end;
  }
}

/// Where the values stand: behind the opening brace, up to the closing one.
struct Body {
  std::size_t begin;
  std::size_t end;
};

Body find_body(const Source& source) {
  const std::size_t open = source.text.find('{');
  if (open == std::string::npos)
    refuse(source.where, "no opening brace { before the values of an array");
  const std::size_t next = source.text.find_first_of("{}", open + 1);
  if (next == std::string::npos)
    refuse(source.place_of(open), "the brace is not closed", "the file is cut short");
  if (source.text[next] == '{')
    refuse(source.place_of(next), "a brace within the braces", "give one plain array of bytes");
  const std::size_t second = source.text.find('{', next);
  if (second != std::string::npos)
    refuse(source.place_of(second), "a second array", "keep the one array that holds the dump");
  return {open + 1, next};
}

bool is_suffix(char c) {
  return c == 'u' || c == 'U' || c == 'l' || c == 'L';
}

std::uint8_t parse_value(std::string_view word, const std::string& here) {
  std::string_view digits = word;
  while (!digits.empty() && is_suffix(digits.back())) digits.remove_suffix(1);
  if (word.empty()) refuse(here, "a value is missing between two commas");
  const bool hex = lower(digits.substr(0, 2)) == "0x";
  if (!hex && digits.size() > 1 && digits.front() == '0')
    refuse(here, fmt::format("{} is an octal number in C", in_quotes(word)),
           "write it as 0x and two hex digits");
  const auto value = hex ? std::optional<std::int64_t>(parse_hex(digits.substr(2), 0xFFFFFFFF))
                         : parse_integer(digits);
  if (!value)
    refuse(here, fmt::format("{} is not a number", in_quotes(word)),
           "values are hex as 0x40 or decimal as 64, with commas between them");
  if (*value < 0 || *value > 0xFF)
    refuse(here, fmt::format("{} does not fit a byte", in_quotes(word)), "a byte is 0x00 to 0xFF");
  return static_cast<std::uint8_t>(*value);
}

std::vector<DumpByte> parse_values(const Source& source, const Body& body) {
  std::vector<DumpByte> values;
  std::size_t begin = body.begin;
  while (begin < body.end) {
    const std::size_t comma = std::min(source.text.find(',', begin), body.end);
    const std::string_view piece = std::string_view(source.text).substr(begin, comma - begin);
    const std::string_view word = trim(piece);
    const bool behind_last_comma = word.empty() && comma == body.end;
    const std::size_t at = begin + std::min(piece.find_first_not_of(" \t\n"), piece.size());
    if (values.size() == Image::large_size && !behind_last_comma)
      refuse(source.place_of(at), "more than 128 values, and no clock chip holds more");
    if (!behind_last_comma) values.emplace_back(parse_value(word, source.place_of(at)));
    begin = comma + 1;
  }
  return values;
}

/// `image[64] = {`: C would fill what is missing with zero, and a dump must not.
void check_declared_length(const Source& source, const Body& body, std::size_t count) {
  const std::string_view head = std::string_view(source.text).substr(0, body.begin);
  const std::size_t open = head.rfind('[');
  const std::size_t close = head.rfind(']');
  if (open == std::string_view::npos || close == std::string_view::npos || close < open) return;
  const auto length = parse_integer(trim(head.substr(open + 1, close - open - 1)));
  if (length && *length != static_cast<std::int64_t>(count))
    refuse(source.place_of(open),
           fmt::format("the array is declared with {} values, but {} stand in the braces", *length,
                       count),
           "values are missing or too many");
}

}  // namespace

Image read_c_array(std::string_view content, const std::string& where) {
  Source source{normal_text(content, where), where};
  blank_comments(source);
  const Body body = find_body(source);
  const std::vector<DumpByte> values = parse_values(source, body);
  check_declared_length(source, body, values.size());
  return image_by_count(values, where);
}

std::string write_c_array(const Image& image, std::optional<std::uint8_t> fill) {
  constexpr std::size_t values_a_line = 8;
  const std::vector<std::uint8_t> bytes = filled_bytes(image, fill, "c-array");
  std::string text = fmt::format("const unsigned char image[{}] = {{\n", bytes.size());
  for (std::size_t at = 0; at < bytes.size(); at += values_a_line) {
    const auto first = bytes.begin() + static_cast<std::ptrdiff_t>(at);
    text +=
        fmt::format("    0x{:02X},\n",
                    fmt::join(first, first + static_cast<std::ptrdiff_t>(values_a_line), ", 0x"));
  }
  return text + "};\n";
}

}  // namespace rtcmend
