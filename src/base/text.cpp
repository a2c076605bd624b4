#include "base/text.h"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>
#include <numeric>
#include <utility>

namespace rtcmend {

std::string hex2(std::uint8_t value) {
  // Hundreds in a report, and a format string takes ten times as long.
  constexpr const char* digits = "0123456789ABCDEF";
  return {digits[value >> 4], digits[value & 0xF]};
}

std::string hex_prose(std::uint8_t value) {
  return hex2(value) + 'h';
}

std::optional<std::uint32_t> parse_hex(std::string_view digits, std::uint32_t most) {
  std::uint32_t value = 0;
  const char* end = digits.data() + digits.size();
  const auto [stop, failure] = std::from_chars(digits.data(), end, value, 16);
  if (failure != std::errc{} || stop != end || value > most) return std::nullopt;
  return value;
}

std::optional<std::int64_t> parse_integer(std::string_view digits) {
  std::int64_t value = 0;
  const char* end = digits.data() + digits.size();
  const auto [stop, failure] = std::from_chars(digits.data(), end, value);
  if (failure != std::errc{} || stop != end) return std::nullopt;
  return value;
}

std::string_view trim(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n\v\f";
  const auto first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::string lower(std::string_view text) {
  std::string out(text);
  // ASCII only, whatever the locale: ids and digits hold nothing else.
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> parts;
  for (;;) {
    const auto end = text.find(separator);
    parts.emplace_back(text.substr(0, end));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + 1);
  }
}

std::vector<std::string_view> lines(std::string_view text) {
  std::vector<std::string_view> all;
  while (!text.empty()) {
    const auto end = text.find_first_of("\r\n");
    all.push_back(text.substr(0, end));
    if (end == std::string_view::npos) break;
    const bool pair = text[end] == '\r' && end + 1 < text.size() && text[end + 1] == '\n';
    text.remove_prefix(end + (pair ? 2 : 1));
  }
  return all;
}

std::string join(const std::vector<std::string>& parts, std::string_view between) {
  return fmt::format("{}", fmt::join(parts, between));
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
  // Three rows of the usual table; the third is what a swap of neighbours looks back to.
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), now(b.size() + 1);
  std::iota(last.begin(), last.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, replaced});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        now[j] = std::min(now[j], before[j - 2] + 1);
    }
    std::swap(before, last);
    std::swap(last, now);
  }
  return last[b.size()];
}

std::vector<std::string> nearest(std::string_view word, const std::vector<std::string>& candidates,
                                 std::size_t most) {
  // A name given on a command line is short; a long one is no slip of the finger.
  constexpr std::size_t longest_word = 64;
  if (word.empty() || word.size() > longest_word) return {};
  const std::string wanted = lower(word);
  std::vector<std::pair<std::size_t, std::string>> near;
  for (const std::string& candidate : candidates) {
    const std::string name = lower(candidate);
    const bool part = name.find(wanted) != std::string::npos;
    const std::size_t distance = part ? 1 : edit_distance(wanted, name);
    if (distance <= std::max<std::size_t>(2, wanted.size() / 3))
      near.emplace_back(distance, candidate);
  }
  std::stable_sort(near.begin(), near.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> names;
  for (const auto& entry : near)
    if (names.size() < most) names.push_back(entry.second);
  return names;
}

namespace {

/// One character decoded from UTF-8; length 0 when the bytes are not valid.
struct Decoded {
  char32_t code = 0;
  std::size_t length = 0;
};

Decoded decode_utf8(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80) return {lead, 1};
  const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || text.size() < length) return {};
  char32_t code = lead & (0xFFU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0) != 0x80) return {};
    code = (code << 6) | (byte(i) & 0x3FU);
  }
  constexpr char32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  if (code < least[length] || code > 0x10FFFF || surrogate) return {};
  return {code, length};
}

/// Characters behind ASCII's letters that move the cursor, reorder text or hide: the delete and C1
/// controls, direction marks, zero-width characters, line separators, the byte order mark.
bool hidden(char32_t code) {
  return (code >= 0x7F && code < 0xA0) || code == 0x061C || (code >= 0x200B && code <= 0x200F) ||
         (code >= 0x2028 && code <= 0x202E) || (code >= 0x2060 && code <= 0x2069) ||
         code == 0xFEFF || code == 0x00AD || code == 0x180E ||
         code == 0x3164 ||                      // soft hyphen, fillers without ink
         (code >= 0xFFF9 && code <= 0xFFFB) ||  // annotations between the lines
         (code >= 0xE0000 && code <= 0xE007F);  // tags
}

/// Two halves above FFFFh, as JSON wants it (RFC 8259, section 7).
std::string escaped_in_json(char32_t code) {
  const auto number = static_cast<std::uint32_t>(code);
  if (number <= 0xFFFF) return fmt::format("\\u{:04x}", number);
  const std::uint32_t rest = number - 0x10000;
  return fmt::format("\\u{:04x}\\u{:04x}", 0xD800 + (rest >> 10), 0xDC00 + (rest & 0x3FF));
}

}  // namespace

std::string printable(std::string_view text) {
  // Most text is plain.
  if (std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c <= '~'; }))
    return std::string(text);
  std::string safe;
  while (!text.empty()) {
    const Decoded one = decode_utf8(text);
    const std::size_t length = std::max<std::size_t>(one.length, 1);
    if (one.length == 0 || one.code < 0x20 || one.code == 0x7F)
      safe += fmt::format("\\x{:02X}", static_cast<unsigned char>(text[0]));
    else if (hidden(one.code))
      safe += fmt::format("\\u{{{:04X}}}", static_cast<std::uint32_t>(one.code));
    else
      safe += text.substr(0, length);
    text.remove_prefix(length);
  }
  return safe;
}

std::string printable_json(std::string_view json) {
  std::string safe;
  while (!json.empty()) {
    const Decoded one = decode_utf8(json);
    const std::size_t length = std::max<std::size_t>(one.length, 1);
    if (one.code >= 0x7F && hidden(one.code))  // a line's end is no part of a string
      safe += escaped_in_json(one.code);
    else
      safe += json.substr(0, length);
    json.remove_prefix(length);
  }
  return safe;
}

std::string fold(std::string_view text, std::size_t width, std::size_t indent) {
  std::string folded;
  std::size_t column = 0;
  while (!text.empty()) {
    const std::string_view word = text.substr(0, text.find(' '));
    text.remove_prefix(std::min(text.size(), word.size() + 1));
    if (word.empty()) continue;
    if (column > 0 && column + 1 + word.size() > width) {
      folded += '\n';
      folded.append(indent, ' ');
      column = indent;
    } else if (column > 0) {
      folded += ' ';
      ++column;
    }
    folded += word;
    column += word.size();
  }
  return folded;
}

std::string counted(std::size_t count, std::string_view noun) {
  if (count == 0) return fmt::format("no {}s", noun);
  return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

}  // namespace rtcmend
