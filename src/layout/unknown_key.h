#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

namespace rtcmend {

/// A key of a document that its schema has no room for, and those it has room for at that place.
struct UnknownKey {
  std::string path;  ///< JSON pointer of the object that holds it
  std::string key;
  std::vector<std::string> known;
};

/// The first such key. Understands "properties", "items" and references to "definitions", which is
/// all that our schemas nest by.
std::optional<UnknownKey> find_unknown_key(const nlohmann::json& document,
                                           const nlohmann::json& schema);

}  // namespace rtcmend
