#pragma once

#include <string>

#include "layout/load.h"

namespace rtcmend {

/// A layout of 64 bytes made up for one test: the members of its JSON file.
inline Layout made_up(const std::string& members, const std::string& id = "mine") {
  return load_layout(R"({"layout": ")" + id + R"(", "title": "Mine", )" + members + "}", id,
                     [](std::string_view) { return std::string_view{}; });
}

/// A field of that file; the rest says where it stands and what it means.
inline std::string field_entry(const std::string& id, const std::string& rest) {
  return R"({"id": ")" + id + R"(", "label": ")" + id +
         R"(", "group": "g", "source": "made up for the test", )" + rest + "}";
}

inline std::string check_entry(const std::string& id, const std::string& rest) {
  return R"({"id": ")" + id + R"(", "source": "made up for the test", )" + rest + "}";
}

}  // namespace rtcmend
