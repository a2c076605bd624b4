#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace rtcmend {

/// A piece of HTML or SVG that is safe to put into a page. Text gets in through words() and
/// attribute values alone, and both escape it; names of elements, attributes and classes come from
/// this program's own sources.
class Html {
 public:
  Html() = default;
  const std::string& text() const { return text_; }
  Html& operator+=(const Html& other);
  friend Html operator+(Html a, const Html& b) { return std::move(a += b); }

 private:
  explicit Html(std::string text) : text_(std::move(text)) {}
  friend Html words(std::string_view text);
  friend Html own_markup(std::string_view markup);

  std::string text_;
};

/// An attribute, its value not escaped yet.
struct Attribute {
  const char* name;
  std::string value;
};
using Attributes = std::initializer_list<Attribute>;

/// Text from anywhere, escaped: markup stays words, and what is not printable becomes \xNN or
/// \u{NNNN}.
Html words(std::string_view text);
/// Markup that stands in this program's sources, or is made from numbers. Never text from outside.
Html own_markup(std::string_view markup);

/// <name attributes>content</name>
Html element(const char* name, Attributes attributes, const Html& content);
Html element(const char* name, const Html& content);
/// The same around text from anywhere.
Html element(const char* name, Attributes attributes, std::string_view text);
Html element(const char* name, std::string_view text);
/// An element without content: <name attributes/> in SVG, <name attributes> in HTML reads the same.
Html lone(const char* name, Attributes attributes);

/// The pieces with something between them.
Html joined(const std::vector<Html>& pieces, const Html& between);
/// Text of several lines: the lines, a <br> between them.
Html word_lines(std::string_view text);

}  // namespace rtcmend
