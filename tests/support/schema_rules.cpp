#include "support/schema_rules.h"

#include <algorithm>
#include <functional>
#include <nlohmann/json.hpp>
#include <regex>

namespace rtcmend {

using nlohmann::json;

namespace {

using Pointer = json::json_pointer;
using Visit = std::function<void(const json& schema, const Pointer& at)>;

/// Every schema inside a schema, itself first.
void each_schema(const json& schema, const Pointer& at, const Visit& visit) {
  visit(schema, at);
  if (!schema.is_object()) return;
  for (const char* key : {"properties", "definitions"})
    if (schema.contains(key))
      for (const auto& [name, inner] : schema[key].items())
        each_schema(inner, at / key / name, visit);
  for (const char* key : {"items", "additionalProperties"})
    if (schema.contains(key) && schema[key].is_object()) each_schema(schema[key], at / key, visit);
  if (schema.contains("anyOf"))
    for (std::size_t i = 0; i < schema["anyOf"].size(); ++i)
      each_schema(schema["anyOf"][i], at / "anyOf" / i, visit);
}

bool is_readable_pattern(const json& pattern) {
  try {
    std::regex(pattern.get<std::string>());
    return true;
  } catch (const std::regex_error&) {
    return false;
  }
}

bool is_type(const json& name) {
  const std::vector<std::string> types = {"string", "boolean", "integer", "number",
                                          "array",  "object",  "null"};
  return std::count(types.begin(), types.end(), name) == 1;
}

/// Whether a keyword has the kind of argument that draft 4 gives it, and that we give it.
bool is_used_well(const std::string& keyword, const json& argument, const json& root) {
  if (keyword == "type")
    return argument.is_array() ? std::all_of(argument.begin(), argument.end(), is_type)
                               : is_type(argument);
  if (keyword == "pattern") return argument.is_string() && is_readable_pattern(argument);
  if (keyword == "items" || keyword == "properties" || keyword == "definitions")
    return argument.is_object();
  if (keyword == "additionalProperties") return argument.is_boolean() || argument.is_object();
  if (keyword == "exclusiveMinimum") return argument.is_boolean();
  if (keyword == "minimum" || keyword == "maximum") return argument.is_number();
  if (keyword.starts_with("min") || keyword.starts_with("max"))
    return argument.is_number_unsigned();
  if (keyword == "$ref")
    return argument.is_string() && argument.get<std::string>().starts_with("#/definitions/") &&
           root.contains(Pointer(argument.get<std::string>().substr(1)));
  if (keyword == "enum" || keyword == "anyOf" || keyword == "required")
    return argument.is_array() && !argument.empty();
  return argument.is_string();
}

}  // namespace

const std::vector<std::string>& schema_keywords() {
  static const std::vector<std::string> keywords = {"$schema",
                                                    "title",
                                                    "description",
                                                    "definitions",
                                                    "$ref",
                                                    "type",
                                                    "enum",
                                                    "anyOf",
                                                    "properties",
                                                    "required",
                                                    "minProperties",
                                                    "maxProperties",
                                                    "items",
                                                    "minItems",
                                                    "maxItems",
                                                    "minLength",
                                                    "maxLength",
                                                    "pattern",
                                                    "minimum",
                                                    "maximum",
                                                    "exclusiveMinimum",
                                                    "additionalProperties"};
  return keywords;
}

std::vector<std::string> unheeded(const json& root) {
  std::vector<std::string> found;
  const auto& known = schema_keywords();
  each_schema(root, Pointer(), [&](const json& schema, const Pointer& at) {
    if (!schema.is_object()) {
      found.push_back(at.to_string());
      return;
    }
    for (const auto& [keyword, argument] : schema.items())
      if (std::count(known.begin(), known.end(), keyword) == 0 ||
          !is_used_well(keyword, argument, root))
        found.push_back((at / keyword).to_string());
    if (schema.contains("exclusiveMinimum") && !schema.contains("minimum"))
      found.push_back((at / "exclusiveMinimum").to_string());
  });
  return found;
}

std::vector<std::string> untyped(const json& root) {
  std::vector<std::string> found;
  each_schema(root, Pointer(), [&](const json& schema, const Pointer& at) {
    const auto says = [&](const char* keyword) { return schema.contains(keyword); };
    if (!says("type") && !says("enum") && !says("anyOf") && !says("$ref"))
      found.push_back(at.to_string());
  });
  return found;
}

}  // namespace rtcmend
