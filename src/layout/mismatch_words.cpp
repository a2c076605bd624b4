#include "layout/mismatch_words.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/near_miss.h"
#include "base/text.h"

namespace rtcmend {

using nlohmann::json;

namespace {

/// Texts longer than this are described, not shown.
constexpr std::size_t longest_shown = 40;

std::string quoted(const std::string& text) {
  return '"' + printable(text) + '"';
}

std::vector<std::string> keys(const json& object) {
  std::vector<std::string> names;
  for (const auto& [name, value] : object.items()) names.push_back(name);
  return names;
}

/// "a, b or c".
std::string either(std::vector<std::string> words) {
  if (words.size() < 2) return join(words, "");
  const std::string last = words.back();
  words.pop_back();
  return join(words, ", ") + " or " + last;
}

/// "1 entry", "3 entries".
std::string counted(std::size_t count, const char* one, const char* many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::size_t characters(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  }));
}

/// What the document has, for the end of a sentence.
std::string found(const json& value) {
  if (value.is_string()) {
    const auto& text = value.get_ref<const std::string&>();
    return text.size() <= longest_shown ? quoted(text)
                                        : fmt::format("text of {} characters", characters(text));
  }
  if (value.is_array()) return "a list of " + counted(value.size(), "entry", "entries");
  if (value.is_object()) return "an object of " + counted(value.size(), "key", "keys");
  return value.dump();
}

/// How many may stand there: " of 2 entries", " of 1 to 16 entries".
std::string amount(const json& schema, const char* least_key, const char* most_key, const char* one,
                   const char* many) {
  const auto least = schema.value(least_key, std::size_t{0});
  if (!schema.contains(most_key))
    return least == 0 ? "" : fmt::format(" of {} or more {}", least, many);
  const auto most = schema[most_key].get<std::size_t>();
  if (least == most) return " of " + counted(most, one, many);
  if (least == 0) return fmt::format(" of at most {}", counted(most, one, many));
  return fmt::format(" of {} to {} {}", least, most, many);
}

/// The bounds of a number: " from 0 to 255", " above 0 and up to 1000".
std::string bounds(const json& schema) {
  const bool above = schema.value("exclusiveMinimum", false);
  const std::string least = schema.contains("minimum") ? schema["minimum"].dump() : "";
  const std::string most = schema.contains("maximum") ? schema["maximum"].dump() : "";
  if (least.empty()) return most.empty() ? "" : " of at most " + most;
  if (most.empty()) return above ? " above " + least : fmt::format(" of {} or more", least);
  return above ? fmt::format(" above {} and up to {}", least, most)
               : fmt::format(" from {} to {}", least, most);
}

std::string wanted_of_type(const std::string& type, const json& schema) {
  if (type == "string") {
    if (schema.contains("pattern"))
      return "text that matches " + schema["pattern"].get<std::string>();
    return "text" + amount(schema, "minLength", "maxLength", "character", "characters");
  }
  if (type == "integer") return "a whole number" + bounds(schema);
  if (type == "number") return "a number" + bounds(schema);
  if (type == "boolean") return "true or false";
  if (type == "array") return "a list" + amount(schema, "minItems", "maxItems", "entry", "entries");
  if (type == "object")
    return "an object" + amount(schema, "minProperties", "maxProperties", "key", "keys");
  return type;
}

std::vector<std::string> types(const json& schema) {
  if (!schema.contains("type")) return {};
  if (schema["type"].is_string()) return {schema["type"]};
  return schema["type"];
}

/// What the schema wants: its "title" where it has one, or what its keywords say.
std::string wanted(const SchemaNode& node);

std::string wanted_by_keywords(const SchemaNode& node) {
  const json& schema = node.schema();
  std::vector<std::string> words;
  if (schema.contains("enum"))
    for (const json& value : schema["enum"]) words.push_back(found(value));
  else if (schema.contains("anyOf"))
    for (const SchemaNode& choice : node.choices()) words.push_back(wanted(choice));
  else
    for (const std::string& type : types(schema)) words.push_back(wanted_of_type(type, schema));
  return either(words);
}

std::string wanted(const SchemaNode& node) {
  const json& schema = node.schema();
  return schema.contains("title") ? schema["title"].get<std::string>() : wanted_by_keywords(node);
}

MismatchWords missing_keys(const json& object, const json& schema) {
  std::vector<std::string> missing;
  for (const json& key : schema["required"])
    if (!object.contains(key.get<std::string>())) missing.push_back(quoted(key));
  return {fmt::format("wants the {} {} here", missing.size() == 1 ? "key" : "keys",
                      join(missing, ", ")),
          ""};
}

MismatchWords unknown_key(const std::string& key, const json& schema) {
  return {fmt::format("has no key {} here", quoted(key)),
          near_or_all(key, keys(schema.value("properties", json::object())))};
}

/// The words of an enumeration that a mistyped one may have meant.
std::string near_words(const json& value, const json& schema) {
  if (!value.is_string()) return "";
  std::vector<std::string> known;
  for (const json& word : schema["enum"])
    if (word.is_string()) known.push_back(word);
  return join(nearest(value.get<std::string>(), known), " or ");
}

bool is_of_one_type(const json& value, const std::string& type) {
  if (type == "string") return value.is_string();
  if (type == "boolean") return value.is_boolean();
  if (type == "integer") return value.is_number_integer();
  if (type == "number") return value.is_number();
  if (type == "array") return value.is_array();
  if (type == "object") return value.is_object();
  return value.is_null();
}

}  // namespace

MismatchWords mismatch_words(const json& value, const SchemaNode& node, const std::string& keyword,
                             const std::string& key) {
  const json& schema = node.schema();
  if (keyword == "required") return missing_keys(value, schema);
  if (keyword == "additionalProperties") return unknown_key(key, schema);
  // A title says of what kind and how written, but not how many or within which bounds.
  const bool of_its_kind = keyword == "type" || keyword == "pattern";
  return {fmt::format("wants {} here, not {}",
                      of_its_kind ? wanted(node) : wanted_by_keywords(node), found(value)),
          keyword == "enum" ? near_words(value, schema) : ""};
}

bool is_of_type(const json& value, const json& schema) {
  const auto allowed = types(schema);
  return allowed.empty() || std::any_of(allowed.begin(), allowed.end(), [&](const auto& type) {
           return is_of_one_type(value, type);
         });
}

}  // namespace rtcmend
