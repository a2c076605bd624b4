#include "sheet/workbench_page.h"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

#include "base/error.h"

namespace rtcmend {

namespace {

/// The element that src/page/ui/index.html leaves empty for this.
constexpr std::string_view room = R"(<script type="application/json" id="given">)";

/// JSON in which nothing ends the element that it stands in.
std::string inside_markup(const nlohmann::json& json) {
  std::string text;
  for (const char c : json.dump(-1, ' ', true, nlohmann::json::error_handler_t::replace)) {
    if (c == '<')
      text += "\\u003c";
    else
      text += c;
  }
  return text;
}

}  // namespace

std::string page_with(const std::string& page, const OnThePage& given) {
  const auto at = page.find(room);
  if (at == std::string::npos || page.find(room, at + 1) != std::string::npos)
    refuse("rtcmend.html", "this is not the workbench page of this program",
           "fetch program and page from the same release");
  nlohmann::json json;
  json["name"] = given.name;
  json["content"] = fmt::format(
      "{:02x}",
      fmt::join(reinterpret_cast<const unsigned char*>(given.content.data()),
                reinterpret_cast<const unsigned char*>(given.content.data()) + given.content.size(),
                ""));
  json["how"] = given.how;
  if (!given.layout.empty()) json["layout"] = given.layout;
  if (!given.layout_file.empty()) json["layout_file"] = given.layout_file;
  std::string whole = page;
  whole.insert(at + room.size(), inside_markup(json));
  return whole;
}

}  // namespace rtcmend
