#include "forms/hex.h"

#include <algorithm>
#include <fmt/format.h>
#include <vector>

#include "base/error.h"
#include "base/text.h"
#include "forms/hex_addresses.h"
#include "forms/hex_line.h"
#include "forms/hex_session.h"
#include "forms/hex_token.h"
#include "forms/row_text.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

// More than a chip has, as addressed lines may repeat; an end to work on endless input.
constexpr std::size_t most_bytes = 4096;

bool is_comment(std::string_view line) {
  return line.front() == '#' || line.front() == ';' || line.substr(0, 2) == "//";
}

/// The line of column numbers that some hex editors put on top.
bool is_heading(std::string_view line) {
  const std::string word = lower(line.substr(0, 7));
  return word.starts_with("offset") || word.starts_with("address");
}

std::vector<SourceLine> lines_with_bytes(std::vector<SourceLine> lines) {
  std::erase_if(lines, [](const SourceLine& line) {
    const std::string_view text = trim(line.text);
    return is_comment(text) || is_prompt_line(text);
  });
  if (!lines.empty() && is_heading(trim(lines.front().text))) lines.erase(lines.begin());
  return lines;
}

std::vector<HexLine> parse_lines(const std::vector<SourceLine>& lines, AddressStyle style,
                                 const std::string& where) {
  std::vector<HexLine> parsed;
  std::size_t count = 0;
  for (const SourceLine& line : lines) {
    parsed.push_back(parse_hex_line(line, style, where));
    count += bytes_of(parsed.back()).size();
    if (count > most_bytes)
      refuse(place(where, line.number), "more bytes than any clock chip holds",
             "give the chip's 64 or 128 bytes alone");
  }
  return parsed;
}

Image image_in_order(const std::vector<HexLine>& lines, const std::string& where) {
  std::vector<DumpByte> all;
  for (const HexLine& line : lines) {
    if (line.repeat)
      refuse(place(where, line.number),
             "a * stands for left out rows, but no addresses say how many",
             "make the dump with addresses, or without leaving out rows");
    const std::vector<DumpByte> bytes = bytes_of(line);
    all.insert(all.end(), bytes.begin(), bytes.end());
    if (all.size() > Image::large_size)
      refuse(place(where, line.number),
             "the bytes up to this line are more than 128, and no clock chip holds more",
             "a whole dump has 64 or 128 bytes; the RAM part alone, 0Eh and up, has 50 or 114");
  }
  return image_by_count(all, where);
}

}  // namespace

Image read_hex(std::string_view content, const std::string& where) {
  const std::vector<SourceLine> all = source_lines(content, where);
  if (is_port_session(all)) return read_port_session(all, where);
  const std::vector<SourceLine> lines = lines_with_bytes(all);
  if (lines.empty()) refuse(where, "it holds no bytes of the chip");
  const AddressStyle style = address_style(trim(lines.front().text));
  const std::vector<HexLine> parsed = parse_lines(lines, style, where);
  if (style != AddressStyle::none) return image_by_address(parsed, style, where);
  if (starts_with_addresses(parsed)) return image_by_first_word(parsed, where);
  return image_in_order(parsed, where);
}

std::string write_hex(const Image& image) {
  std::string text;
  for (std::size_t at = 0; at < image.size(); at += bytes_a_row)
    text += fmt::format("{:02X}: {}\n", at, row_text(image, static_cast<Address>(at)));
  return text;
}

bool looks_like_hex(std::string_view content) {
  std::vector<SourceLine> lines;
  try {
    lines = source_lines(content, "");
  } catch (const Error&) {
    return false;
  }
  if (is_port_session(lines)) return true;
  lines = lines_with_bytes(std::move(lines));
  if (lines.empty()) return false;
  const std::string_view first = trim(lines.front().text);
  if (address_style(first) != AddressStyle::none) return true;
  const std::string_view word = first.substr(0, first.find_first_of(" \t,"));
  return all_hex(word) || parse_hex_token(word).problem.empty();
}

}  // namespace rtcmend
