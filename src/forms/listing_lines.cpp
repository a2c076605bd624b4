#include "forms/listing_lines.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdint>

#include "base/text.h"
#include "forms/hex_session.h"
#include "forms/line_address.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

constexpr std::string_view blanks = " \t\f\v";

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

void blank(std::string& line, std::size_t begin, std::size_t end) {
  std::fill(line.begin() + static_cast<std::ptrdiff_t>(begin),
            line.begin() + static_cast<std::ptrdiff_t>(std::min(end, line.size())), ' ');
}

/// "> > " in front of what a mail or a forum quotes.
void blank_quoting(std::string& line) {
  for (std::size_t at = indent(line); at < line.size() && line[at] == '>'; at = indent(line))
    line[at] = ' ';
}

/// The tags of forums and pages that listings are pasted from.
void blank_tags(std::string& line) {
  static constexpr std::array<std::string_view, 18> names{
      "code", "quote", "table", "td",   "tr", "th", "tbody", "thead", "pre",
      "br",   "tt",    "div",   "span", "p",  "b",  "i",     "font",  "size"};
  for (const auto& [open, close] : {std::pair('<', '>'), std::pair('[', ']')}) {
    std::size_t at = 0;
    while ((at = line.find(open, at)) != std::string::npos) {
      const std::size_t end = line.find(close, at);
      if (end == std::string::npos) break;
      std::string_view inside = std::string_view(line).substr(at + 1, end - at - 1);
      if (inside.starts_with('/')) inside.remove_prefix(1);
      const std::string name = lower(inside.substr(0, inside.find_first_of(" =/")));
      if (std::find(names.begin(), names.end(), name) != names.end()) blank(line, at, end + 1);
      at = at + 1;
    }
  }
  for (std::size_t at = 0; (at = line.find("&nbsp;", at)) != std::string::npos;)
    blank(line, at, at + 6);
}

/// A row of a table begins with its bar; emphasis within it is of the table, too.
void blank_table(std::string& line) {
  if (indent(line) == line.size() || line[indent(line)] != '|') return;
  std::replace_if(
      line.begin(), line.end(), [](char c) { return c == '|' || c == '`'; }, ' ');
  for (std::size_t at = 0; (at = line.find("**", at)) != std::string::npos;)
    blank(line, at, at + 2);
}

bool is_word_character(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == ' ' || c == '.';
}

/// How many numbers stand there in front.
std::size_t leading_numbers(std::string_view text) {
  std::size_t count = 0;
  std::size_t at = 0;
  while ((at = text.find_first_not_of(" \t,;\"'", at)) != std::string_view::npos) {
    const std::size_t end = std::min(text.find_first_of(" \t,;\"'", at), text.size());
    if (!number_in(text.substr(at, end - at))) break;
    ++count;
    at = end;
  }
  return count;
}

/// "dump = 21 00 ...", "data: 21 00 ...": a name in front of the bytes.
void blank_name(std::string& line) {
  const std::size_t end = line.find_first_of(":=");
  if (end == std::string::npos) return;
  const std::string_view name = trim(std::string_view(line).substr(0, end));
  const bool plain = !name.empty() && std::all_of(name.begin(), name.end(), is_word_character) &&
                     name.find_first_of("0123456789") == std::string_view::npos && !all_hex(name);
  constexpr std::size_t fewest = 4;
  if (plain && leading_numbers(std::string_view(line).substr(end + 1)) >= fewest)
    blank(line, 0, end + 1);
}

/// What difference programs and editors of old put in front: "+10: 40", ":0100  21", and "1x" for
/// the row of 10h.
void mend_start(std::string& line) {
  const std::size_t at = indent(line);
  if (at + 1 >= line.size()) return;
  if ((line[at] == '+' || line[at] == ':') && is_hex_digit(line[at + 1])) line[at] = ' ';
  const bool ends = at + 2 >= line.size() || blanks.find(line[at + 2]) != std::string_view::npos;
  const bool row = is_hex_digit(line[at]) && (line[at + 1] == 'x' || line[at + 1] == '_');
  if (row && ends) line[at + 1] = '0';
}

/// A number in front of a line, and where the rest begins.
struct LineNumber {
  std::uint64_t number;
  std::size_t rest;
};

/// "12:00000010  40 00" and "  12  00000010  40 00": a number in front of an address of many
/// digits.
std::optional<LineNumber> line_number(std::string_view line) {
  const std::size_t begin = indent(line);
  const std::size_t end = std::min(line.find_first_not_of("0123456789", begin), line.size());
  const auto number = value_in(line.substr(begin, end - begin), 10);
  constexpr std::size_t longest = 5;
  if (!number || end - begin > longest || end >= line.size()) return std::nullopt;
  if (line[end] != ':' && line[end] != ' ' && line[end] != '\t') return std::nullopt;
  const std::string_view rest = line.substr(end + 1);
  const auto address = bare_address(rest);
  const auto marked = marked_address(rest);
  constexpr std::size_t fewest_digits = 4;
  const std::size_t digits = address ? address->digits.size() : marked ? marked->digits.size() : 0;
  const std::size_t from = address ? address->rest : marked ? marked->rest : 0;
  if (digits < fewest_digits || from >= rest.size()) return std::nullopt;
  const auto next = bare_address(rest.substr(from));
  if (!next || next->digits.size() == digits) return std::nullopt;
  return LineNumber{*number, end + 1};
}

/// Takes off the numbers that a search or a pager puts in front of lines, where they count them.
void blank_line_numbers(std::vector<ListingLine>& lines) {
  std::size_t counted = 0;
  std::optional<LineNumber> before;
  for (const ListingLine& line : lines) {
    const auto number = line_number(line.text);
    if (number && before && number->number == before->number + 1) ++counted;
    before = number;
  }
  if (counted < 2) return;
  for (ListingLine& line : lines)
    if (const auto number = line_number(line.text)) blank(line.text, 0, number->rest);
}

/// "0x10 | 44 00 ...": a bar between the address and the bytes.
void blank_bar(std::string& line) {
  const std::size_t bar = line.find('|');
  if (bar == std::string::npos || !number_in(trim(std::string_view(line).substr(0, bar)))) return;
  const std::string_view rest = trim(std::string_view(line).substr(bar + 1));
  if (number_in(rest.substr(0, rest.find_first_of(" \t,")))) line[bar] = ' ';
}

/// What was typed at a prompt of a shell, a debugger or a loader.
bool is_typed(std::string_view text) {
  for (const std::string_view prompt : {"=> ", "$ ", "(gdb)", "% ", ">>> ", "PS ", "@@ "})
    if (text.starts_with(prompt)) return true;
  return is_prompt_line(text);
}

/// "[2031-05-14 09:30:00.123] ", "09:30:00.123 -> " and the like; the column behind it, or where it
/// would begin.
std::size_t behind_time(std::string_view line) {
  const std::size_t begin = indent(line);
  std::size_t at = begin;
  const auto two = [&](char behind) {
    const bool fits = at + 2 < line.size() && is_digit(line[at]) && is_digit(line[at + 1]) &&
                      line[at + 2] == behind;
    if (fits) at += 3;
    return fits;
  };
  const bool bracket = at < line.size() && (line[at] == '[' || line[at] == '(');
  if (bracket) ++at;
  const std::size_t date_end = line.find_first_of(" T", at);
  if (date_end == at + 10 && line[at + 4] == '-' && line[at + 7] == '-') at = date_end + 1;
  if (!two(':') || !two(':')) return begin;
  if (at + 1 >= line.size() || !is_digit(line[at]) || !is_digit(line[at + 1])) return begin;
  at += 2;
  if (at < line.size() && (line[at] == '.' || line[at] == ','))
    for (++at; at < line.size() && is_digit(line[at]);) ++at;
  if (bracket && (at >= line.size() || (line[at] != ']' && line[at] != ')'))) return begin;
  if (bracket) ++at;
  if (at < line.size() && blanks.find(line[at]) == std::string_view::npos) return begin;
  const std::size_t next = std::min(line.find_first_not_of(blanks, at), line.size());
  return line.substr(next, 2) == "->" ? next + 2 : at;
}

/// "21:00:58:...": pairs of digits with colons between them, as key and certificate programs print
/// bytes. True for a line of nothing else.
bool has_colons(std::string_view line) {
  const std::string_view text = trim(line);
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool fits = i % 3 == 2 ? text[i] == ':' : is_hex_digit(text[i]);
    if (!fits) return false;
  }
  return true;
}

bool is_comment(std::string_view text) {
  return text.front() == '#' || text.front() == ';' || text.starts_with("//");
}

/// Nothing but the lines and corners of a table.
bool is_ruler(std::string_view text) {
  return text.size() > 2 && text.find_first_not_of("-=+|:_~` \t") == std::string_view::npos &&
         text.find("??") == std::string_view::npos &&
         text.find("-- -- --") == std::string_view::npos;
}

/// The line of column numbers or titles that hex viewers put on top.
bool is_heading(std::string_view text) {
  const std::string word = lower(text.substr(0, 8));
  for (const std::string_view start : {"offset", "address", "path:", "label:", "addr ", "ofs ",
                                       "addr,", "addr;", "addr\t", "addr|"})
    if (word.starts_with(start)) return text.find('=') == std::string_view::npos;
  return false;
}

}  // namespace

ListingLines listing_lines(std::string_view text, const std::string& where) {
  ListingLines all;
  std::vector<ListingLine> lines;
  for (const SourceLine& source : source_lines(text, where)) {
    ListingLine line{source.number, std::string(source.text), std::string(source.text)};
    blank_quoting(line.text);
    blank_tags(line.text);
    blank_table(line.text);
    blank_bar(line.text);
    mend_start(line.text);
    blank_name(line.text);
    lines.push_back(std::move(line));
  }
  blank_line_numbers(lines);
  // A clock in front of nearly every line is the terminal's; in front of one it may be anything.
  const auto timed = std::count_if(lines.begin(), lines.end(), [](const ListingLine& line) {
    return behind_time(line.text) > indent(line.text);
  });
  // (A wrapped line has a part with and one without.)
  const bool all_timed = timed > 1 && static_cast<std::size_t>(timed) * 2 >= lines.size();
  // A pair before a colon is an address when it stands alone, and a byte among many.
  constexpr std::ptrdiff_t fewest_colons = 4;
  const bool colons = std::any_of(lines.begin(), lines.end(), [](const ListingLine& line) {
    return has_colons(line.text) &&
           std::count(line.text.begin(), line.text.end(), ':') >= fewest_colons;
  });
  for (ListingLine& line : lines) {
    if (all_timed) blank(line.text, 0, behind_time(line.text));
    if (colons && has_colons(line.text)) std::replace(line.text.begin(), line.text.end(), ':', ' ');
    line.text = without_last(line.text, blanks);
    const std::string_view plain = trim(line.text);
    if (plain.empty() || is_comment(plain) || is_ruler(plain) || is_typed(plain) ||
        is_heading(plain))
      all.passed.push_back(line.number);
    else
      all.lines.push_back(std::move(line));
  }
  return all;
}

}  // namespace rtcmend
