#include "forms/hex_line.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "forms/ascii_column.h"
#include "forms/hex_token.h"

namespace rtcmend {

namespace {

constexpr std::string_view blanks = " \t\f\v";
constexpr std::string_view separators = " \t\f\v,";

std::string_view skip(std::string_view text, std::string_view set) {
  const auto first = text.find_first_not_of(set);
  return first == std::string_view::npos ? std::string_view{} : text.substr(first);
}

/// An address and what follows it on the line.
struct AddressSplit {
  LineAddress address;
  std::string_view rest;
};

std::string_view leading_digits(std::string_view text) {
  const auto end = std::find_if_not(text.begin(), text.end(),
                                    [](char c) { return all_hex(std::string_view(&c, 1)); });
  return text.substr(0, static_cast<std::size_t>(end - text.begin()));
}

std::string_view without_0x(std::string_view text) {
  const bool marked = text.size() > 2 && text[0] == '0' && (text[1] == 'x' || text[1] == 'X');
  return marked ? text.substr(2) : text;
}

/// "1234:0100", four digits each and a blank behind, as the debuggers of DOS print it.
std::optional<AddressSplit> split_segmented(std::string_view line) {
  constexpr std::size_t half = 4;
  constexpr std::size_t whole = 2 * half + 1;
  if (line.size() < whole || line[half] != ':') return std::nullopt;
  if (!all_hex(line.substr(0, half)) || !all_hex(line.substr(half + 1, half))) return std::nullopt;
  if (line.size() > whole && blanks.find(line[whole]) == std::string_view::npos)
    return std::nullopt;
  return AddressSplit{{line.substr(half + 1, half), line.substr(0, half)}, line.substr(whole)};
}

std::optional<AddressSplit> split_marked(std::string_view line) {
  if (const auto split = split_segmented(line)) return split;
  line = without_0x(line);
  const std::string_view digits = leading_digits(line);
  if (digits.empty()) return std::nullopt;
  std::string_view rest = line.substr(digits.size());
  if (!rest.empty() && (rest.front() == 'h' || rest.front() == 'H')) rest.remove_prefix(1);
  rest = skip(rest, blanks);
  if (rest.empty() || (rest.front() != ':' && rest.front() != '=')) return std::nullopt;
  return AddressSplit{{digits, {}}, rest.substr(1)};
}

std::optional<AddressSplit> split_bare(std::string_view line) {
  line = without_0x(line);
  const std::string_view digits = leading_digits(line);
  const std::string_view rest = line.substr(digits.size());
  if (digits.empty()) return std::nullopt;
  if (!rest.empty() && separators.find(rest.front()) == std::string_view::npos) return std::nullopt;
  return AddressSplit{{digits, {}}, rest};
}

std::optional<AddressSplit> split_address(std::string_view line, AddressStyle style) {
  if (style == AddressStyle::marked) return split_marked(line);
  if (style == AddressStyle::bare) return split_bare(line);
  return std::nullopt;
}

/// A debugger that starts within a row leaves the bytes in front of the first one blank: two blanks
/// behind the address, then three for each byte.
std::size_t skipped_bytes(const AddressSplit& split, const std::string& here) {
  constexpr std::size_t margin = 2;
  constexpr std::size_t columns_a_byte = 3;
  if (split.address.segment.empty()) return 0;
  const auto gap = std::min(split.rest.find_first_not_of(' '), split.rest.size());
  if (gap < margin + columns_a_byte) return 0;
  if ((gap - margin) % columns_a_byte != 0)
    refuse(here, "the blanks in front of the first byte do not say which byte it is",
           "give each line the address of its first byte, with two blanks behind it");
  return (gap - margin) / columns_a_byte;
}

/// Whether an ASCII column begins somewhere in the gap in front of `begin`: its own first
/// characters may be blanks.
AsciiFit fit_behind_gap(const std::vector<DumpByte>& bytes, std::string_view text,
                        std::size_t gap_begin, std::size_t begin) {
  AsciiFit best = AsciiFit::none;
  for (std::size_t start = gap_begin + 1; start <= begin && best != AsciiFit::exact; ++start)
    best = std::max(best, ascii_fit(bytes, text.substr(start)));
  return best;
}

bool starts_comment_or_column(std::string_view rest) {
  return std::string_view("|>#;").find(rest.front()) != std::string_view::npos ||
         rest.substr(0, 2) == "//";
}

void parse_groups(HexLine& line, std::string_view text, const std::string& here) {
  std::vector<DumpByte> bytes;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t gap_begin = at;
    at = text.find_first_not_of(separators, at);
    if (at == std::string_view::npos) return;
    const std::size_t gap = at - gap_begin;
    const std::string_view rest = text.substr(at);
    if (!bytes.empty() && gap > 0 && starts_comment_or_column(rest)) return;
    const AsciiFit fit =
        bytes.empty() || gap == 0 ? AsciiFit::none : fit_behind_gap(bytes, text, gap_begin, at);
    if (gap > 1 && fit == AsciiFit::exact) return;
    const std::string_view word = rest.substr(0, rest.find_first_of(separators));
    at += word.size();
    if (word == "-") continue;
    HexToken token = parse_hex_token(word);
    if (!token.problem.empty()) {
      if (fit != AsciiFit::none) return;
      refuse(here, token.problem,
             "bytes are two hex digits each, ?? for an unknown one, with blanks between them");
    }
    bytes.insert(bytes.end(), token.bytes.begin(), token.bytes.end());
    line.groups.push_back(std::move(token.bytes));
  }
}

}  // namespace

AddressStyle address_style(std::string_view line) {
  if (split_marked(line)) return AddressStyle::marked;
  const auto bare = split_bare(line);
  if (!bare) return AddressStyle::none;
  const std::string_view next = skip(bare->rest, separators);
  const std::string_view word = next.substr(0, next.find_first_of(separators));
  const std::size_t width = bare->address.digits.size();
  // Four digits and then two: an address and a byte. Seven and then four: what the dump programs
  // of Unix print by default.
  const bool before_byte = width >= 4 && parse_hex_token(word).bytes.size() == 1;
  const bool before_group = width >= 6 && word.size() != width;
  return !word.empty() && (before_byte || before_group) ? AddressStyle::bare : AddressStyle::none;
}

HexLine parse_hex_line(const SourceLine& source, AddressStyle style, const std::string& where) {
  const std::string here = place(where, source.number);
  HexLine line;
  line.number = source.number;
  const std::string_view text = skip(source.text, blanks);
  if (text == "*") {
    line.repeat = true;
    return line;
  }
  const auto split = split_address(text, style);
  if (style != AddressStyle::none && !split)
    refuse(here,
           fmt::format("{} is no address, and the lines before begin with one", in_quotes(text)),
           "begin every line with an address, or none");
  if (!split) {
    parse_groups(line, text, here);
    return line;
  }
  line.address = split->address;
  line.skipped = skipped_bytes(*split, here);
  parse_groups(line, split->rest, here);
  return line;
}

std::vector<DumpByte> bytes_of(const HexLine& line) {
  std::vector<DumpByte> bytes;
  for (const auto& group : line.groups) bytes.insert(bytes.end(), group.begin(), group.end());
  return bytes;
}

}  // namespace rtcmend
