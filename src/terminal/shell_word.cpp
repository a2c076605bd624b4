#include "terminal/shell_word.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

/// What no shell takes for anything else, wherever it stands in a word.
bool is_plain(char c) {
  constexpr std::string_view marks = "_-./:@%+,=";
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
         marks.find(c) != std::string_view::npos;
}

std::string in_quotes(std::string_view name) {
  std::string quoted = "'";
  for (const char c : name) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return quoted + "'";
}

std::string in_codes(std::string_view name) {
  std::string quoted = "$'";
  for (const char c : name) {
    const bool letter = c >= ' ' && c <= '~';
    if (!letter)
      quoted += fmt::format("\\x{:02X}", static_cast<unsigned char>(c));
    else if (c == '\'' || c == '\\')
      quoted += std::string("\\") + c;
    else
      quoted += c;
  }
  return quoted + "'";
}

void replace_all(std::string& text, std::string_view what, std::string_view with) {
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + with.size()))
    text.replace(at, what.size(), with);
}

/// U+00A0: looks like a blank, and is none to a shell or to fold().
constexpr std::string_view no_break_blank = "\xC2\xA0";

}  // namespace

std::string shell_word(std::string_view name) {
  const std::string safe =
      name.starts_with('-') && name != "-" ? "./" + std::string(name) : std::string(name);
  if (printable(safe) != safe || safe.find(no_break_blank) != std::string::npos)
    return in_codes(safe);
  if (!safe.empty() && std::all_of(safe.begin(), safe.end(), is_plain)) return safe;
  return in_quotes(safe);
}

std::string hanging_with(std::string_view text, std::string_view command, std::size_t column) {
  std::string held(command);
  replace_all(held, " ", no_break_blank);
  std::string whole(text);
  replace_all(whole, "{}", held);
  std::string folded = hanging(whole, column);
  replace_all(folded, no_break_blank, " ");
  return folded;
}

}  // namespace rtcmend
