#include "sheet/html.h"

#include "base/text.h"

namespace rtcmend {

namespace {

/// The five characters that mean something in HTML text or in a quoted attribute.
std::string escaped(std::string_view text) {
  std::string safe;
  for (const char c : printable(text)) {
    switch (c) {
      case '&':
        safe += "&amp;";
        break;
      case '<':
        safe += "&lt;";
        break;
      case '>':
        safe += "&gt;";
        break;
      case '"':
        safe += "&quot;";
        break;
      case '\'':
        safe += "&#39;";
        break;
      default:
        safe += c;
    }
  }
  return safe;
}

std::string opening(const char* name, Attributes attributes) {
  std::string tag = std::string("<") + name;
  for (const Attribute& attribute : attributes)
    tag += std::string(" ") + attribute.name + "=\"" + escaped(attribute.value) + "\"";
  return tag;
}

}  // namespace

Html& Html::operator+=(const Html& other) {
  text_ += other.text_;
  return *this;
}

Html words(std::string_view text) {
  return Html(escaped(text));
}

Html own_markup(std::string_view markup) {
  return Html(std::string(markup));
}

Html element(const char* name, Attributes attributes, const Html& content) {
  return own_markup(opening(name, attributes) + ">" + content.text() + "</" + name + ">");
}

Html element(const char* name, const Html& content) {
  return element(name, {}, content);
}

Html element(const char* name, Attributes attributes, std::string_view text) {
  return element(name, attributes, words(text));
}

Html element(const char* name, std::string_view text) {
  return element(name, {}, words(text));
}

Html lone(const char* name, Attributes attributes) {
  return own_markup(opening(name, attributes) + "/>");
}

Html joined(const std::vector<Html>& pieces, const Html& between) {
  Html all;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (i > 0) all += between;
    all += pieces[i];
  }
  return all;
}

Html word_lines(std::string_view text) {
  std::vector<Html> pieces;
  for (const std::string_view line : lines(text)) pieces.push_back(words(line));
  return joined(pieces, own_markup("<br>"));
}

}  // namespace rtcmend
