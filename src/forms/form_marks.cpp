#include "forms/form_marks.h"

#include <algorithm>

#include "base/text.h"
#include "forms/code_line.h"
#include "forms/hex.h"
#include "forms/listing_lines.h"
#include "forms/number.h"

namespace rtcmend {

namespace {

constexpr std::string_view blanks = " \t\r\n\f\v";

/// A colon and the hex digits of the shortest record.
bool is_intel_hex(std::string_view line) {
  constexpr std::size_t shortest = 9;
  return line.starts_with(':') && line.size() > 1 && all_hex(line.substr(1, shortest));
}

bool is_s_record(std::string_view line) {
  constexpr std::size_t shortest = 6;
  const bool starts = line.starts_with('S') || line.starts_with('s');
  return starts && line.size() > 2 && all_hex(line.substr(1, shortest));
}

/// "10: ... =48": a short address, and a code behind the last blank or equals sign.
bool is_row(std::string_view line) {
  constexpr std::size_t latest_colon = 3;
  constexpr std::size_t longest_code = 3;
  constexpr std::size_t shortest = 40;  // an address and bytes, even with a few lost
  const std::size_t equals = line.rfind('=');
  return line.find(':') <= latest_colon && equals != std::string_view::npos && equals > shortest &&
         line[equals - 1] == ' ' && line.size() - equals - 1 <= longest_code;
}

/// Numbers in front of a brace make it a character of a text column.
bool is_in_text_column(std::string_view line) {
  std::size_t numbers = 0;
  for (const std::string& word : split(line, ' '))
    if (number_in(word) || (!word.empty() && word.back() == ':')) ++numbers;
  return numbers >= 2;
}

}  // namespace

Sketch sketch_of(std::string_view content) {
  constexpr std::size_t enough = 8192;
  Sketch sketch{content};
  for (const std::string_view line : lines(content.substr(0, enough)))
    if (!trim(line).empty()) sketch.lines.push_back(trim(line));
  return sketch;
}

bool shows_json(const Sketch& sketch) {
  const std::string_view content = sketch.content;
  const auto first = content.find_first_not_of(blanks);
  if (first == std::string_view::npos || content[first] != '{') return false;
  const auto next = content.find_first_not_of(blanks, first + 1);
  if (next == std::string_view::npos || (content[next] != '"' && content[next] != '}'))
    return false;
  // Another program's object is the project's own as long as no array of numbers stands in it.
  return content.find("\"rtcmend\"") != std::string_view::npos || !looks_like_hex(content);
}

/// A code, wherever a photograph reader put it. The project's own JSON may have one in its note.
bool shows_code_text(const Sketch& sketch) {
  if (sketch.content.find("\"rtcmend\"") != std::string_view::npos) return false;
  return !code_places(code_letters(sketch.content).text).empty();
}

bool shows_intel_hex(const Sketch& sketch) {
  return !sketch.lines.empty() && is_intel_hex(sketch.lines.front());
}

bool shows_s_record(const Sketch& sketch) {
  return !sketch.lines.empty() && is_s_record(sketch.lines.front());
}

bool shows_rows(const Sketch& sketch) {
  return std::any_of(sketch.lines.begin(), sketch.lines.end(), is_row);
}

bool shows_hex(const Sketch& sketch) {
  return looks_like_hex(sketch.content);
}

/// A brace with a number or a comment behind it.
bool shows_c_array(const Sketch& sketch) {
  const std::string_view content = sketch.content;
  const std::size_t open = content.find('{');
  if (open == std::string_view::npos) return false;
  const auto next = content.find_first_not_of(blanks, open + 1);
  if (next == std::string_view::npos ||
      std::string_view("0123456789/}&(").find(content[next]) == std::string_view::npos)
    return false;
  const std::size_t line = content.substr(0, open).find_last_of("\r\n");
  const std::size_t begin = line == std::string_view::npos ? 0 : line + 1;
  return !is_in_text_column(content.substr(begin, open - begin));
}

}  // namespace rtcmend
