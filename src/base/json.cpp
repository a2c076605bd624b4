#include "base/json.h"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <set>
#include <vector>

#include "base/error.h"
#include "base/text.h"

namespace rtcmend {

using nlohmann::json;

namespace {

// Deeper than any file of ours needs, and shallow enough that no stack is in danger.
constexpr int deepest_nesting = 32;

std::size_t line_of(std::string_view text, std::size_t byte) {
  const auto end = text.begin() + static_cast<std::ptrdiff_t>(std::min(byte, text.size()));
  return 1 + static_cast<std::size_t>(std::count(text.begin(), end, '\n'));
}

}  // namespace

json parse_json(std::string_view text, const std::string& where) {
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  std::vector<std::set<std::string>> keys;
  const auto watch = [&](int depth, json::parse_event_t event, json& parsed) {
    if (depth > deepest_nesting)
      refuse(where, fmt::format("it is nested deeper than {} levels", deepest_nesting));
    if (event == json::parse_event_t::object_start) keys.emplace_back();
    if (event == json::parse_event_t::object_end) keys.pop_back();
    if (event == json::parse_event_t::key && !keys.back().insert(parsed.get<std::string>()).second)
      refuse(where,
             fmt::format("the key \"{}\" is given twice", printable(parsed.get<std::string>())),
             "keep one of the two");
    return true;
  };
  try {
    return json::parse(text, watch);
  } catch (const json::exception& failure) {
    const auto* position = dynamic_cast<const json::parse_error*>(&failure);
    const std::size_t byte = position != nullptr ? position->byte : 0;
    refuse(
        fmt::format("{}:{}", where, line_of(text, byte > 0 ? byte - 1 : 0)), "it is not valid JSON",
        "look at that line and the one before: a comma, quote or bracket is missing or too many");
  }
}

std::string json_place(const std::string& where, const std::string& path) {
  return path.empty() ? where : where + " at " + path;
}

}  // namespace rtcmend
