#include "forms/c_array.h"

#include <algorithm>
#include <cstdint>
#include <fmt/format.h>
#include <vector>

#include "base/error.h"
#include "base/text.h"
#include "forms/number.h"
#include "forms/raw.h"
#include "forms/read_listing.h"
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

/// A value as it was written.
struct Value {
  std::uint64_t number = 0;
  std::size_t hex_digits = 0;  // 0: decimal
  std::size_t at = 0;
  std::string word{};
};

std::string_view without_cast(std::string_view word) {
  if (word.empty() || word.front() != '(') return word;
  const std::size_t close = word.find(')');
  return close == std::string_view::npos ? word : trim(word.substr(close + 1));
}

Value parse_value(std::string_view written, const std::string& here) {
  if (written.empty()) refuse(here, "a value is missing between two commas");
  const std::string_view word = without_cast(written);
  if (word.size() == 3 && word.front() == '\'' && word.back() == '\'')
    return {static_cast<unsigned char>(word[1]), 2, 0, std::string(word)};
  const auto number = number_in(without_suffix(word));
  const std::string_view digits = number ? number->digits : std::string_view{};
  if (number && number->mark == Mark::none && digits.size() > 1 && digits.front() == '0' &&
      value_in(digits, 10))
    refuse(here, fmt::format("{} is an octal number in C", in_quotes(word)),
           "write it as 0x and two hex digits");
  const int radix = !number || number->mark == Mark::none ? 10
                    : number->mark == Mark::hex           ? 16
                    : number->mark == Mark::octal         ? 8
                                                          : 2;
  const auto value = value_in(digits, radix);
  if (!value)
    refuse(here, fmt::format("{} is not a number", in_quotes(word)),
           "values are hex as 0x40 or decimal as 64, with commas between them");
  if (number->negative)
    refuse(here, fmt::format("{} does not fit a byte", in_quotes(word)), "a byte is 0x00 to 0xFF");
  return {*value, radix == 16 ? digits.size() : 0, 0, std::string(word)};
}

/// "0x0 <repeats 32 times>", as a debugger prints an array.
struct Repeated {
  std::string_view word;
  std::size_t times = 1;
};

Repeated repeated_word(std::string_view word, const std::string& here) {
  constexpr std::string_view begin = "<repeats ";
  constexpr std::string_view end = " times>";
  const std::size_t at = word.find(begin);
  if (at == std::string_view::npos || !word.ends_with(end)) return {word};
  const std::size_t from = at + begin.size();
  const auto times = parse_integer(word.substr(from, word.size() - end.size() - from));
  if (!times || *times < 1) refuse(here, fmt::format("{} does not say how often", in_quotes(word)));
  return {trim(word.substr(0, at)), static_cast<std::size_t>(*times)};
}

std::vector<Value> parse_values(const Source& source, const Body& body) {
  std::vector<Value> values;
  std::size_t begin = body.begin;
  while (begin < body.end) {
    const std::size_t comma = std::min(source.text.find(',', begin), body.end);
    const std::string_view piece = std::string_view(source.text).substr(begin, comma - begin);
    const std::string_view word = trim(piece);
    const bool behind_last_comma = word.empty() && comma == body.end;
    const std::size_t at = begin + std::min(piece.find_first_not_of(" \t\n"), piece.size());
    if (values.size() == Image::large_size && !behind_last_comma)
      refuse(source.place_of(at), "more than 128 values, and no clock chip holds more");
    if (!behind_last_comma) {
      const Repeated repeated = repeated_word(word, source.place_of(at));
      const Value value = parse_value(repeated.word, source.place_of(at));
      values.insert(values.end(), std::min(repeated.times, Image::large_size + 1), value);
      values.back().at = at;
    }
    begin = comma + 1;
  }
  return values;
}

/// Values that are larger than a byte are words, if so many of them make a dump.
bool are_words(const Source& source, const std::vector<Value>& values) {
  const auto large = std::find_if(values.begin(), values.end(),
                                  [](const Value& value) { return value.number > 0xFF; });
  if (large == values.end()) return false;
  const bool sized = is_dump_size(values.size() * 2) || is_dump_size(values.size() * 4);
  if (!sized)
    refuse(source.place_of(large->at),
           fmt::format("{} does not fit a byte", in_quotes(large->word)), "a byte is 0x00 to 0xFF");
  return true;
}

/// Digits that show by their number when one is lost: all hex, and of two digits where one of them
/// has a zero in front.
void warn_of_lost_digits(const Source& source, const std::vector<Value>& values, Remarks& remarks) {
  bool padded = false;
  bool varied = false;
  const Value* odd = nullptr;
  for (const Value& value : values) {
    padded = padded || (value.hex_digits == 2 && value.number < 0x10);
    varied = varied || value.hex_digits != 2;
    if (value.hex_digits == 1) odd = &value;
  }
  if (padded && odd != nullptr)
    remarks.warnings.push_back(fmt::format("{}: {} has one digit where others have two",
                                           source.place_of(odd->at), in_quotes(odd->word)));
  else if (varied)
    remarks.warnings.emplace_back(
        "its numbers have as few digits as they need, so that a lost digit would not show: compare "
        "them with their source");
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

Found read_c_array(std::string_view content, const std::string& where,
                   const ReadingOptions& options) {
  Source source{normal_text(content, where), where};
  blank_comments(source);
  const Body body = find_body(source);
  const std::vector<Value> values = parse_values(source, body);
  check_declared_length(source, body, values.size());
  if (are_words(source, values)) {
    ReadingOptions words = options;
    words.addresses = AddressKind::none;
    const auto outside = [](char c) { return c != '\n'; };
    std::string& text = source.text;
    std::replace_if(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(body.begin), outside,
                    ' ');
    std::replace_if(text.begin() + static_cast<std::ptrdiff_t>(body.end), text.end(), outside, ' ');
    return read_listing(text, where, words);
  }
  std::vector<DumpByte> bytes;
  for (const Value& value : values) bytes.emplace_back(static_cast<std::uint8_t>(value.number));
  Found found = chip_in(bytes, where, options);
  warn_of_lost_digits(source, values, found.remarks);
  return found;
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
