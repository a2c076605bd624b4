#include "forms/value_frame.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <vector>

#include "base/text.h"
#include "forms/number.h"

namespace rtcmend {

namespace {

// As few numbers may be the arguments of a call; as many are an array.
constexpr std::size_t fewest_values = 16;

void blank(std::string& text, std::size_t begin, std::size_t end) {
  for (std::size_t i = begin; i < std::min(end, text.size()); ++i)
    if (text[i] != '\n' && text[i] != '\r') text[i] = ' ';
}

/// Remarks to the end of the line, as Python, C and assemblers write them, and C's bounded ones.
void blank_remarks(std::string& text) {
  for (std::size_t at = 0; at < text.size(); ++at) {
    const std::string_view rest = std::string_view(text).substr(at);
    if (rest.starts_with("/*"))
      blank(text, at, std::min(text.find("*/", at), text.size() - 2) + 2);
    else if (rest.front() == '#' || rest.front() == ';' || rest.starts_with("//"))
      blank(text, at, text.find_first_of("\r\n", at));
  }
}

/// How many numbers stand between commas there; 0 when anything else does, too.
std::size_t count_values(std::string_view inside) {
  std::size_t count = 0;
  for (const std::string& piece : split(inside, ',')) {
    std::string_view word = trim(piece);
    if (word.empty()) continue;
    const bool quoted = word.size() > 2 && word.front() == word.back() &&
                        (word.front() == '"' || word.front() == '\'');
    if (quoted) word = word.substr(1, word.size() - 2);
    if (!number_in(word)) return 0;
    ++count;
  }
  return count;
}

/// The brackets with most numbers between them.
std::optional<Framed> in_brackets(std::string_view text) {
  std::string plain(text);
  blank_remarks(plain);
  std::size_t most = 0;
  std::size_t arrays = 0;
  std::size_t begin = 0;
  std::size_t end = 0;
  for (std::size_t at = 0; (at = plain.find_first_of("[({", at)) != std::string::npos; ++at) {
    const std::size_t close = plain.find_first_of("[](){}", at + 1);
    if (close == std::string::npos) break;
    const char wanted = plain[at] == '(' ? ')' : static_cast<char>(plain[at] + 2);
    if (plain[close] != wanted) continue;
    const std::size_t count = count_values(std::string_view(plain).substr(at + 1, close - at - 1));
    if (count >= fewest_values) ++arrays;
    if (count <= most) continue;
    most = count;
    begin = at + 1;
    end = close;
  }
  if (most < fewest_values) return std::nullopt;
  blank(plain, 0, begin);
  blank(plain, end, plain.size());
  return Framed{plain, arrays - 1};
}

/// Where the values begin behind a word that says that bytes follow; npos when the line has none.
std::size_t behind_directive(std::string_view line) {
  static constexpr std::array<std::string_view, 15> directives{
      "data", "db",   "dw",   "dd",  ".byte", ".word", ".long", ".short",
      "defb", "dc.b", "dc.w", "fcb", ".db",   ".dw",   "byte"};
  std::size_t at = 0;
  // A line number or a label may stand in front, hardly more.
  for (int word = 0; word < 3; ++word) {
    at = line.find_first_not_of(" \t", at);
    if (at == std::string_view::npos) return at;
    const std::size_t end = std::min(line.find_first_of(" \t", at), line.size());
    const std::string name = lower(line.substr(at, end - at));
    if (std::find(directives.begin(), directives.end(), name) != directives.end()) return end;
    at = end;
  }
  return std::string_view::npos;
}

std::optional<Framed> behind_directives(std::string_view text) {
  std::string plain(text);
  std::size_t values = 0;
  for (const std::string_view line : lines(text)) {
    const auto begin = static_cast<std::size_t>(line.data() - text.data());
    const std::size_t from = behind_directive(line);
    std::string_view inside =
        from == std::string_view::npos ? std::string_view{} : line.substr(from);
    inside = inside.substr(0, inside.find(';'));
    const std::size_t count = count_values(inside);
    if (count == 0) {
      blank(plain, begin, begin + line.size());
      continue;
    }
    values += count;
    blank(plain, begin, begin + from);
    blank(plain, begin + from + inside.size(), begin + line.size());
  }
  if (values < fewest_values) return std::nullopt;
  return Framed{plain};
}

/// Hex digits in quotes, as in bytes.fromhex("21 00 58").
std::optional<Framed> in_quotation(std::string_view text) {
  constexpr std::size_t fewest_digits = 2 * fewest_values;
  std::string plain(text.size(), ' ');
  std::transform(text.begin(), text.end(), plain.begin(),
                 [](char c) { return c == '\n' || c == '\r' ? c : ' '; });
  std::size_t digits = 0;
  for (std::size_t at = 0; (at = text.find_first_of("\"'", at)) != std::string_view::npos;) {
    const std::size_t close = text.find(text[at], at + 1);
    if (close == std::string_view::npos) break;
    const std::string_view inside = text.substr(at + 1, close - at - 1);
    const auto count =
        static_cast<std::size_t>(std::count_if(inside.begin(), inside.end(), is_hex_digit));
    const bool hex = count > 1 && inside.find_first_not_of("0123456789abcdefABCDEF \t\r\n") ==
                                      std::string_view::npos;
    if (hex) {
      digits += count;
      std::copy(inside.begin(), inside.end(), plain.begin() + static_cast<std::ptrdiff_t>(at + 1));
    }
    at = hex ? close + 1 : at + 1;
  }
  // A table of single numbers in quotes is read as what it is, line by line.
  const bool long_enough = digits >= fewest_digits;
  const bool dense = text.find("\",") == std::string_view::npos || digits >= 4 * fewest_digits;
  if (!long_enough || !dense) return std::nullopt;
  return Framed{plain};
}

/// True for text that a program's line would hold: an opening bracket, a call, an assignment.
bool is_program(std::string_view text) {
  return text.find_first_of("([{=\"'") != std::string_view::npos;
}

}  // namespace

std::optional<Framed> framed_values(std::string_view text) {
  if (is_program(text))
    if (auto framed = in_brackets(text)) return framed;
  if (auto framed = behind_directives(text)) return framed;
  const bool call =
      text.find("(\"") != std::string_view::npos || text.find("('") != std::string_view::npos ||
      text.find("= \"") != std::string_view::npos || text.find("= '") != std::string_view::npos;
  if (call) return in_quotation(text);
  return std::nullopt;
}

}  // namespace rtcmend
