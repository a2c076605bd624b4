#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace rtcmend::test {

/// An element of a page, as a browser would see it.
struct PageElement {
  std::string name;
  std::map<std::string, std::string> attributes;  ///< as they stand, entities not resolved
  std::string inside;                             ///< what stands between its tags
};

/// Reads a page strictly, more so than a browser: every element that is opened is closed in its
/// turn, attributes are quoted, and none is given twice. Throws std::runtime_error with the place
/// where it is not so.
std::vector<PageElement> read_page(std::string_view page);

/// The elements with this name; with an attribute of this value.
std::vector<PageElement> named(const std::vector<PageElement>& all, const std::string& name);
std::vector<PageElement> with(const std::vector<PageElement>& all, const std::string& attribute,
                              const std::string& value);
/// Text without its tags, entities resolved.
std::string plain(std::string_view inside);

}  // namespace rtcmend::test
