#include "forms/clean_text.h"

#include <algorithm>
#include <cstdint>
#include <optional>

#include "base/error.h"
#include "forms/plain_text.h"

namespace rtcmend {

namespace {

enum class Encoding { bytes, low_first, high_first };

/// A unit of UTF-16 from its two bytes.
char32_t unit(std::string_view content, std::size_t at, Encoding encoding) {
  const auto first = static_cast<unsigned char>(content[at]);
  const auto second = static_cast<unsigned char>(content[at + 1]);
  return encoding == Encoding::low_first ? static_cast<char32_t>(second << 8 | first)
                                         : static_cast<char32_t>(first << 8 | second);
}

/// True when all of it is text: nearly every character of a listing is ASCII.
bool reads_as(std::string_view content, Encoding encoding, std::size_t begin) {
  std::size_t ascii = 0;
  std::size_t all = 0;
  for (std::size_t at = begin; at + 1 < content.size(); at += 2, ++all) {
    const char32_t c = unit(content, at, encoding);
    if (c < 0x80 && c != 0x1A && !is_text_character(static_cast<char>(c))) return false;
    if (c < 0x80) ++ascii;
  }
  return ascii * 4 >= all * 3 && (all > 0 || begin > 0);
}

Encoding encoding_of(std::string_view content) {
  if (content.size() < 2) return Encoding::bytes;
  const std::string_view mark = content.substr(0, 2);
  if (mark == "\xFF\xFE" && reads_as(content, Encoding::low_first, 2)) return Encoding::low_first;
  if (mark == "\xFE\xFF" && reads_as(content, Encoding::high_first, 2)) return Encoding::high_first;
  constexpr std::size_t shortest_without_mark = 130;
  if (content.size() < shortest_without_mark) return Encoding::bytes;
  if (reads_as(content, Encoding::low_first, 0)) return Encoding::low_first;
  if (reads_as(content, Encoding::high_first, 0)) return Encoding::high_first;
  return Encoding::bytes;
}

void append_utf8(std::string& text, char32_t c) {
  const auto tail = [&](int shift) { text += static_cast<char>(0x80 | (c >> shift & 0x3F)); };
  if (c < 0x80) {
    text += static_cast<char>(c);
  } else if (c < 0x800) {
    text += static_cast<char>(0xC0 | c >> 6);
    tail(0);
  } else if (c < 0x10000) {
    text += static_cast<char>(0xE0 | c >> 12);
    tail(6);
    tail(0);
  } else {
    text += static_cast<char>(0xF0 | (c >> 18 & 0x07));
    tail(12);
    tail(6);
    tail(0);
  }
}

/// The ASCII that stands for a sign of editors and web pages; nothing for any other character.
std::optional<std::string_view> plain(char32_t c) {
  if (c == 0xA0 || (c >= 0x2000 && c <= 0x200A) || c == 0x202F || c == 0x205F || c == 0x3000)
    return " ";
  if (c == 0xFEFF || (c >= 0x200B && c <= 0x200D) || c == 0x2060) return "";
  if (c >= 0x2018 && c <= 0x201B) return "'";
  if (c >= 0x201C && c <= 0x201F) return "\"";
  if (c == 0x2010 || c == 0x2011 || c == 0x2012 || c == 0x2013 || c == 0x2212) return "-";
  if (c == 0x2014) return "--";
  if (c == 0x2026) return "...";
  if (c == 0x2192 || c == 0x21D2) return "->";
  if (c == 0x2028 || c == 0x2029) return "\n";
  // Frames of tables: lines that go down, and all others.
  if (c == 0x2502 || c == 0x2503 || c == 0x2551 || c == 0x2506 || c == 0x2507 || c == 0x250A ||
      c == 0x250B)
    return "|";
  if (c >= 0x2500 && c <= 0x257F) return "-";
  return std::nullopt;
}

/// A character of UTF-8 and how many bytes it has; nothing for what is none, as in a code page.
struct Decoded {
  char32_t value;
  std::size_t length;
};
std::optional<Decoded> decode(std::string_view text) {
  const auto lead = static_cast<unsigned char>(text[0]);
  const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : lead >= 0xC2 ? 2 : 0;
  if (length == 0 || text.size() < length || lead > 0xF4) return std::nullopt;
  char32_t value = lead & (0x7FU >> length);
  for (std::size_t i = 1; i < length; ++i) {
    const auto next = static_cast<unsigned char>(text[i]);
    if ((next & 0xC0) != 0x80) return std::nullopt;
    value = value << 6 | (next & 0x3FU);
  }
  return Decoded{value, length};
}

std::string from_utf16(std::string_view content, Encoding encoding, const std::string& where) {
  if (content.size() % 2 != 0)
    refuse(where, "it is UTF-16 text, two bytes a character, and the last one is cut in half",
           "get the whole file, or save it as plain text (ASCII or UTF-8)");
  std::string text;
  for (std::size_t at = 0; at < content.size(); at += 2) {
    char32_t c = unit(content, at, encoding);
    const bool pair = c >= 0xD800 && c < 0xDC00 && at + 3 < content.size();
    if (pair) {
      at += 2;
      c = 0x10000 + ((c & 0x3FF) << 10 | (unit(content, at, encoding) & 0x3FF));
    }
    append_utf8(text, c);
  }
  return text;
}

}  // namespace

bool is_utf16(std::string_view content) {
  return encoding_of(content) != Encoding::bytes;
}

std::string clean_text(std::string_view content, const std::string& where) {
  const Encoding encoding = encoding_of(content);
  std::string decoded;
  if (encoding != Encoding::bytes) {
    decoded = from_utf16(content, encoding, where);
    content = decoded;
  }
  std::string text;
  text.reserve(content.size());
  for (std::size_t at = 0; at < content.size();) {
    const auto lead = static_cast<unsigned char>(content[at]);
    const auto character = lead < 0x80 ? std::nullopt : decode(content.substr(at));
    if (!character) {
      text += content[at++];
      continue;
    }
    if (const auto sign = plain(character->value))
      text += *sign;
    else
      text += content.substr(at, character->length);
    at += character->length;
  }
  return text;
}

}  // namespace rtcmend
