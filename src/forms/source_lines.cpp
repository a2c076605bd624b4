#include "forms/source_lines.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "forms/plain_text.h"

namespace rtcmend {

namespace {

// A whole chip on one line, every byte as "0xNN, " and an ASCII column behind, is under 1000.
constexpr std::size_t longest_line = 4096;
// A byte a line with a few lines of commands around each is under 1000.
constexpr std::size_t most_lines = 16384;

std::string_view without_marks(std::string_view content) {
  if (content.substr(0, 3) == "\xEF\xBB\xBF") content.remove_prefix(3);
  const auto last = content.find_last_not_of('\x1A');
  return content.substr(0, last == std::string_view::npos ? 0 : last + 1);
}

void check_line(std::string_view line, const std::string& here) {
  if (line.size() > longest_line)
    refuse(here,
           fmt::format("the line has {} characters, no form needs more than {}", line.size(),
                       longest_line),
           "check that this is a text dump of the chip");
  const auto control = std::find_if_not(line.begin(), line.end(), is_text_character);
  if (control == line.end()) return;
  refuse(here,
         fmt::format("a byte {} stands in the text, at column {}",
                     hex_prose(static_cast<unsigned char>(*control)), control - line.begin() + 1),
         {{"The file is damaged, or it is not text: then read the bytes as they are",
           Act{Act::Kind::choose, "form", "raw"}}});
}

}  // namespace

std::vector<SourceLine> source_lines(std::string_view content, const std::string& where) {
  std::vector<SourceLine> all;
  std::size_t number = 0;
  for (const std::string_view line : lines(without_marks(content))) {
    ++number;
    check_line(line, place(where, number));
    if (number > most_lines)
      refuse(where, fmt::format("it has more than {} lines, no form needs as many", most_lines),
             "check that this is a text dump of the chip");
    const auto last = line.find_last_not_of(" \t\f\v");
    if (last != std::string_view::npos) all.push_back({number, line.substr(0, last + 1)});
  }
  return all;
}

std::string place(const std::string& where, std::size_t line) {
  return fmt::format("{}:{}", where, line);
}

std::string in_quotes(std::string_view text) {
  constexpr std::size_t longest = 24;
  if (text.size() <= longest) return fmt::format("\"{}\"", printable(text));
  return fmt::format("\"{}...\"", printable(text.substr(0, longest)));
}

}  // namespace rtcmend
