#pragma once

#include <map>
#include <string>
#include <utility>

#include "base/error.h"
#include "layout/load.h"

/// Layouts made up for one test, of 64 bytes.
namespace rtcmend {

/// A layout around the given members, loaded with the schema.
inline Layout load(const std::string& members, std::map<std::string, std::string> parts = {}) {
  const auto source = [&](std::string_view name) -> std::string_view {
    const auto found = parts.find(std::string(name));
    return found == parts.end() ? std::string_view{} : found->second;
  };
  return load_layout(R"({"layout": "mine", "title": "Mine")" + members + "}", "mine.json", source);
}

inline std::string complaint(const std::string& members,
                             std::map<std::string, std::string> parts = {}) {
  try {
    load(members, std::move(parts));
  } catch (const Error& error) {
    return error.what();
  }
  return "accepted";
}

inline std::string field(const std::string& rest, const std::string& id = "f") {
  return R"({"id": ")" + id +
         R"(", "label": "F", "group": "g", "source": "made up for the test", )" + rest + "}";
}

inline std::string fields(const std::string& rest) {
  return R"(, "fields": [)" + rest + "]";
}

inline std::string check(const std::string& rest) {
  return R"(, "checks": [{"id": "c", "source": "made up for the test", )" + rest + "}]";
}

}  // namespace rtcmend
