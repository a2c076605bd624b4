#include "layout/unknown_key.h"

#include <nlohmann/json.hpp>

namespace rtcmend {

using nlohmann::json;

namespace {

using Pointer = json::json_pointer;

class Search {
 public:
  explicit Search(const json& schema) : root_(schema) {}

  std::optional<UnknownKey> in(const json& value, const json& schema, const Pointer& path) const {
    if (schema.contains("$ref")) return in(value, referred(schema["$ref"]), path);
    if (value.is_array() && schema.contains("items")) return in_items(value, schema["items"], path);
    if (value.is_object() && schema.contains("properties"))
      return in_members(value, schema["properties"], path);
    return std::nullopt;
  }

 private:
  /// What "#/definitions/field" stands for.
  const json& referred(const std::string& reference) const {
    return root_.at(Pointer(reference.substr(1)));
  }

  std::optional<UnknownKey> in_items(const json& list, const json& schema,
                                     const Pointer& path) const {
    for (std::size_t i = 0; i < list.size(); ++i)
      if (auto found = in(list[i], schema, path / i)) return found;
    return std::nullopt;
  }

  std::optional<UnknownKey> in_members(const json& object, const json& properties,
                                       const Pointer& path) const {
    for (const auto& [key, value] : object.items()) {
      if (!properties.contains(key)) return UnknownKey{path.to_string(), key, keys(properties)};
      if (auto found = in(value, properties[key], path / key)) return found;
    }
    return std::nullopt;
  }

  static std::vector<std::string> keys(const json& properties) {
    std::vector<std::string> names;
    for (const auto& [name, schema] : properties.items()) names.push_back(name);
    return names;
  }

  const json& root_;
};

}  // namespace

std::optional<UnknownKey> find_unknown_key(const json& document, const json& schema) {
  return Search(schema).in(document, schema, Pointer());
}

}  // namespace rtcmend
