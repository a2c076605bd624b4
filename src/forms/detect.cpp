#include <algorithm>

#include "base/text.h"
#include "forms/form.h"
#include "forms/hex.h"
#include "forms/hex_token.h"
#include "forms/plain_text.h"
#include "forms/sizes.h"

namespace rtcmend {

namespace {

constexpr std::string_view blanks = " \t\r\n\f\v";

std::string_view without_mark(std::string_view content) {
  if (content.substr(0, 3) == "\xEF\xBB\xBF") content.remove_prefix(3);
  return content;
}

/// What stands in front: the first lines are enough to know a form by.
std::vector<std::string_view> first_lines(std::string_view content) {
  constexpr std::size_t enough = 8192;
  std::vector<std::string_view> all;
  for (const std::string_view line : lines(without_mark(content).substr(0, enough)))
    if (!trim(line).empty()) all.push_back(trim(line));
  return all;
}

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
  const std::size_t equals = line.rfind('=');
  return line.find(':') <= latest_colon && equals != std::string_view::npos &&
         equals > latest_colon && line[equals - 1] == ' ' &&
         line.size() - equals - 1 <= longest_code;
}

bool is_json(std::string_view content) {
  const auto first = content.find_first_not_of(blanks);
  if (first == std::string_view::npos) return false;
  if (content[first] == '[') return true;
  const auto next = content.find_first_not_of(blanks, first + 1);
  return content[first] == '{' && next != std::string_view::npos &&
         (content[next] == '"' || content[next] == '}');
}

/// A brace with a number or a comment behind it.
bool has_array(std::string_view content) {
  const std::size_t open = content.find('{');
  if (open == std::string_view::npos) return false;
  const auto next = content.find_first_not_of(blanks, open + 1);
  return next != std::string_view::npos &&
         std::string_view("0123456789/}").find(content[next]) != std::string_view::npos;
}

/// The form of text whose marks the content shows.
std::optional<Form> marked_form(std::string_view content) {
  const std::vector<std::string_view> lines = first_lines(content);
  if (lines.empty()) return std::nullopt;
  if (is_json(without_mark(content))) return Form::json;
  if (is_intel_hex(lines.front())) return Form::intel_hex;
  if (is_s_record(lines.front())) return Form::s_record;
  if (std::any_of(lines.begin(), lines.end(), is_row)) return Form::rows;
  // An ASCII column may hold a brace; what stands before an array never looks like hex.
  if (looks_like_hex(content)) return Form::hex;
  if (has_array(content)) return Form::c_array;
  return std::nullopt;
}

/// Whether raw bytes could carry this form's marks by luck. Hex text is hex digits and no more; all
/// others have marks of their own, and check bytes or a grammar behind them.
bool leaves_doubt(Form form) {
  return form == Form::hex;
}

}  // namespace

std::vector<Form> detect(std::string_view content) {
  // Nearly every raw dump holds a zero byte, and every reader of text refuses one.
  if (is_dump_size(content.size()) && content.find('\0') != std::string_view::npos)
    return {Form::raw};
  const std::optional<Form> marked = marked_form(content);
  const bool text = is_plain_text(content);
  if (!is_dump_size(content.size())) {
    if (marked) return {*marked};
    return text ? std::vector<Form>{} : std::vector<Form>{Form::raw};
  }
  if (!marked) return {Form::raw};
  if (!text) return {Form::raw, *marked};
  return leaves_doubt(*marked) ? std::vector<Form>{*marked, Form::raw} : std::vector<Form>{*marked};
}

}  // namespace rtcmend
