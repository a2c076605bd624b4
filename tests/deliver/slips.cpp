#include "deliver/slips.h"

#include <cctype>
#include <string_view>
#include <vector>

#include "base/text.h"

namespace rtcmend::test {

namespace {

/// The other character of a key, on a keyboard as sold in the United States.
char shifted(char c) {
  constexpr std::string_view plain = "1234567890-=[]\\;',./`", upper = "!@#$%^&*()_+{}|:\"<>?~";
  if (std::isalpha(static_cast<unsigned char>(c))) return static_cast<char>(c ^ 0x20);
  if (const auto at = plain.find(c); at != std::string_view::npos) return upper[at];
  if (const auto at = upper.find(c); at != std::string_view::npos) return plain[at];
  return c;
}

/// Mostly a key beside the right one, else any.
char wrong_key(char right, Dice& dice) {
  constexpr std::string_view rows = "1234567890 qwertyuiop asdfghjkl; zxcvbnm,./";
  const bool capital = std::isupper(static_cast<unsigned char>(right)) != 0;
  const char key = static_cast<char>(std::tolower(static_cast<unsigned char>(right)));
  const auto at = rows.find(key);
  if (at != std::string_view::npos && at > 0 && at + 1 < rows.size() && dice.below(4) != 0) {
    const char beside = rows[dice.coin() ? at + 1 : at - 1];
    return capital ? static_cast<char>(std::toupper(static_cast<unsigned char>(beside))) : beside;
  }
  return static_cast<char>(' ' + dice.below(95));
}

}  // namespace

Slip random_slip(const std::string& text, Dice& dice) {
  std::vector<std::string> all;
  for (const std::string_view line : lines(text)) all.emplace_back(line);
  Slip slip;
  const std::uint32_t kind = dice.below(35);
  // Characters, not lines, are equally likely: a long line has more slips than a short one.
  std::size_t total = 0;
  for (const std::string& line : all) total += line.size();
  std::size_t at = dice.below(static_cast<std::uint32_t>(total));
  while (at >= all[slip.line].size()) at -= all[slip.line++].size();
  std::string& line = all[slip.line];
  const auto place = all.begin() + static_cast<std::ptrdiff_t>(slip.line);
  if (kind < 3) {
    slip.kind = "line lost";
    all.erase(place);
  } else if (kind < 5) {
    slip.kind = "line doubled";
    all.insert(place, std::string(line));
  } else if (kind < 15) {
    slip.kind = "changed";
    line[at] = wrong_key(line[at], dice);
  } else if (kind < 21) {
    slip.kind = "lost";
    line.erase(at, 1);
  } else if (kind < 26) {
    slip.kind = "doubled";
    line.insert(at, 1, line[at]);
  } else if (kind < 31) {
    slip.kind = "exchanged";
    if (at + 1 < line.size()) std::swap(line[at], line[at + 1]);
  } else {
    slip.kind = "shifted";
    line[at] = shifted(line[at]);
  }
  for (const std::string& typed : all) slip.text += typed + "\r\n";
  return slip;
}

}  // namespace rtcmend::test
