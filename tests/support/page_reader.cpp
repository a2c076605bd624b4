#include "support/page_reader.h"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace rtcmend::test {

namespace {

[[noreturn]] void fail(const std::string& what, std::size_t at) {
  throw std::runtime_error(what + " at character " + std::to_string(at));
}

/// Elements of HTML that have no end tag.
bool is_void(const std::string& name) {
  return name == "meta" || name == "br" || name == "hr" || name == "img" || name == "input";
}

struct Reader {
  std::string_view page;
  std::size_t at = 0;
  std::vector<PageElement> done;
  struct Open {
    PageElement element;
    std::size_t starts;
  };
  std::vector<Open> open;

  std::string word() {
    const std::size_t from = at;
    while (at < page.size() && (std::isalnum(static_cast<unsigned char>(page[at])) != 0 ||
                                page[at] == '-' || page[at] == ':'))
      ++at;
    if (at == from) fail("a name is missing", at);
    return std::string(page.substr(from, at - from));
  }

  void attribute(PageElement& element) {
    const std::string name = word();
    if (page.substr(at, 2) != "=\"") fail("an attribute is not quoted", at);
    const std::size_t end = page.find('"', at + 2);
    if (end == std::string_view::npos) fail("an attribute does not end", at);
    if (!element.attributes.emplace(name, page.substr(at + 2, end - at - 2)).second)
      fail("an attribute is given twice", at);
    at = end + 1;
  }

  void start_tag() {
    PageElement element{word(), {}, {}};
    while (page.at(at) == ' ') {
      ++at;
      attribute(element);
    }
    const bool closed = page.substr(at, 2) == "/>";
    if (!closed && page.at(at) != '>') fail("a tag does not end", at);
    at += closed ? 2 : 1;
    if (closed || is_void(element.name))
      done.push_back(element);
    else
      open.push_back({element, at});
    if (element.name == "style") at = page.find("</style>", at);  // not markup inside
  }

  void end_tag(std::size_t began) {
    const std::string name = word();
    if (page.at(at) != '>') fail("an end tag does not end", at);
    ++at;
    if (open.empty() || open.back().element.name != name)
      fail("</" + name + "> closes nothing", began);
    Open last = open.back();
    open.pop_back();
    last.element.inside = page.substr(last.starts, began - last.starts);
    done.push_back(last.element);
  }

  void run() {
    const std::string_view type = "<!doctype html>";
    if (!page.starts_with(type)) fail("no document type", 0);
    at = type.size();
    while (at < page.size()) {
      if (page[at] == '>') fail("a bare >", at);
      if (page[at] != '<') {
        ++at;
        continue;
      }
      const std::size_t began = at++;
      if (page.at(at) == '/') {
        ++at;
        end_tag(began);
      } else {
        start_tag();
      }
    }
    if (!open.empty()) fail("<" + open.back().element.name + "> is not closed", at);
  }
};

}  // namespace

std::vector<PageElement> read_page(std::string_view page) {
  Reader reader{page, 0, {}, {}};
  reader.run();
  return reader.done;
}

std::vector<PageElement> named(const std::vector<PageElement>& all, const std::string& name) {
  std::vector<PageElement> found;
  std::copy_if(all.begin(), all.end(), std::back_inserter(found),
               [&](const PageElement& element) { return element.name == name; });
  return found;
}

std::vector<PageElement> with(const std::vector<PageElement>& all, const std::string& attribute,
                              const std::string& value) {
  std::vector<PageElement> found;
  std::copy_if(all.begin(), all.end(), std::back_inserter(found), [&](const PageElement& element) {
    const auto has = element.attributes.find(attribute);
    return has != element.attributes.end() && has->second == value;
  });
  return found;
}

std::string plain(std::string_view inside) {
  std::string text;
  bool in_tag = false;
  for (const char c : inside) {
    if (c == '<') in_tag = true;
    if (!in_tag) text += c;
    if (c == '>') in_tag = false;
  }
  constexpr std::array<std::pair<std::string_view, std::string_view>, 5> entities{
      {{"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}, {"&amp;", "&"}}};
  for (const auto& [entity, letter] : entities)
    for (auto found = text.find(entity); found != std::string::npos;
         found = text.find(entity, found + 1))
      text.replace(found, entity.size(), letter);
  return text;
}

}  // namespace rtcmend::test
