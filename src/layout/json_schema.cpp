#include "layout/json_schema.h"

#include <algorithm>
#include <nlohmann/json.hpp>

// Patterns by the standard library, which is told a text's length: RapidJSON's own would take a
// text to end at its first NUL. To ask for both by name would give neither.
#define RAPIDJSON_SCHEMA_USE_INTERNALREGEX 0
#include <rapidjson/document.h>
#include <rapidjson/schema.h>
#if !RAPIDJSON_SCHEMA_USE_STDREGEX
#error "this RapidJSON would not heed patterns"
#endif

#include "layout/mismatch_words.h"
#include "layout/schema_node.h"

namespace rtcmend {

using nlohmann::json;

namespace {

using Pointer = json::json_pointer;

/// Where the validator says no, and by which keyword.
struct Stop {
  Pointer at;  ///< the value; for a key that may not be there, the object that has it
  std::string keyword;
  std::string key;  ///< the last key seen in that object
};

rapidjson::SchemaDocument compile(const json& schema) {
  const std::string text = schema.dump();
  rapidjson::Document document;
  document.Parse(text.data(), text.size());
  return rapidjson::SchemaDocument(document);
}

/// Tells RapidJSON's validator a document value by value, so that it needs no copy of its own.
class Walk {
 public:
  explicit Walk(const json& schema) : compiled_(compile(schema)), validator_(compiled_) {}

  std::optional<Stop> stop(const json& document) {
    if (accepts(document)) return std::nullopt;
    Stop stop{Pointer(), validator_.GetInvalidSchemaKeyword(), key_};
    for (auto step = steps_.rbegin(); step != steps_.rend(); ++step) stop.at /= *step;
    return stop;
  }

 private:
  bool accepts(const json& value) {
    if (value.is_object()) return accepts_object(value);
    if (value.is_array()) return accepts_list(value);
    return accepts_plain(value);
  }

  bool accepts_object(const json& object) {
    if (!validator_.StartObject()) return false;
    for (const auto& [key, value] : object.items()) {
      key_ = key;
      if (!validator_.Key(key.data(), size(key), true)) return false;
      if (!accepts(value)) return stopped_in(key);
    }
    return validator_.EndObject(size(object));
  }

  bool accepts_list(const json& list) {
    if (!validator_.StartArray()) return false;
    for (std::size_t i = 0; i < list.size(); ++i)
      if (!accepts(list[i])) return stopped_in(std::to_string(i));
    return validator_.EndArray(size(list));
  }

  bool accepts_plain(const json& value) {
    if (value.is_string()) {
      const auto& text = value.get_ref<const std::string&>();
      return validator_.String(text.data(), size(text), true);
    }
    if (value.is_boolean()) return validator_.Bool(value.get<bool>());
    if (value.is_number_unsigned()) return validator_.Uint64(value.get<std::uint64_t>());
    if (value.is_number_integer()) return validator_.Int64(value.get<std::int64_t>());
    if (value.is_number_float()) return validator_.Double(within_64_bits(value.get<double>()));
    return validator_.Null();
  }

  /// To compare a number with those of an "enum", the validator makes it a 64-bit integer. What is
  /// beyond those is beyond every bound of our schemas, too.
  static double within_64_bits(double number) {
    constexpr double most = 9.0e18;
    return std::clamp(number, -most, most);
  }

  template <typename Sized>
  static rapidjson::SizeType size(const Sized& sized) {
    return static_cast<rapidjson::SizeType>(sized.size());
  }

  bool stopped_in(const std::string& step) {
    steps_.push_back(step);
    return false;
  }

  rapidjson::SchemaDocument compiled_;
  rapidjson::SchemaValidator validator_;
  std::string key_;
  std::vector<std::string> steps_;  ///< from where it stopped back to the root
};

bool has_a_required_key(const json& object, const json& schema) {
  const json required = schema.value("required", json::array());
  return std::any_of(required.begin(), required.end(), [&](const json& key) {
    return object.contains(key.get_ref<const std::string&>());
  });
}

/// The choice of an "anyOf" that a value was meant for: the one of its type, or of several for
/// objects the one that has a key in common with it. What is wrong with the value is wrong there.
std::optional<SchemaNode> meant_choice(const json& value, const SchemaNode& node) {
  std::vector<SchemaNode> choices;
  for (const SchemaNode& choice : node.choices())
    if (is_of_type(value, choice.schema())) choices.push_back(choice);
  if (choices.size() > 1 && value.is_object())
    std::erase_if(choices, [&](const SchemaNode& choice) {
      return !has_a_required_key(value, choice.schema());
    });
  return choices.size() == 1 ? std::optional(choices[0]) : std::nullopt;
}

std::optional<Mismatch> mismatch(const json& document, const SchemaNode& schema) {
  const auto stop = Walk(schema.alone()).stop(document);
  if (!stop) return std::nullopt;
  const json& value = document.at(stop->at);
  const SchemaNode node = schema.within(document, stop->at);
  if (stop->keyword == "anyOf")
    if (const auto choice = meant_choice(value, node))
      if (auto inner = mismatch(value, *choice)) {
        inner->at = stop->at.to_string() + inner->at;
        return inner;
      }
  const MismatchWords words = mismatch_words(value, node, stop->keyword, stop->key);
  return Mismatch{stop->at.to_string(), (node.pointer() / stop->keyword).to_string(), words.what,
                  words.remedy};
}

}  // namespace

std::optional<Mismatch> find_mismatch(const json& document, const json& schema) {
  return mismatch(document, SchemaNode(schema));
}

}  // namespace rtcmend
