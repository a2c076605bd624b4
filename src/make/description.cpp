#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/error.h"
#include "base/json.h"
#include "base/text.h"
#include "make/compose.h"

namespace rtcmend {

using nlohmann::json;

namespace {

const std::vector<std::string> known_keys{"layout", "size", "clock", "set", "note"};

/// "FILE at /set/floppy_a". Slashes and tildes in a key as RFC 6901 writes them.
std::string place_of(const std::string& where, const std::vector<std::string>& keys) {
  json::json_pointer pointer;
  for (const std::string& key : keys) pointer /= key;
  return json_place(where, printable(pointer.to_string()));
}

void refuse_unknown_keys(const json& whole, const std::string& where) {
  for (const auto& [key, value] : whole.items()) {
    if (std::find(known_keys.begin(), known_keys.end(), key) != known_keys.end()) continue;
    const auto near = nearest(key, known_keys, 1);
    refuse(place_of(where, {key}), "a machine description has no such key",
           near.empty() ? "its keys are " + join(known_keys, ", ")
                        : fmt::format("did you mean \"{}\"?", near.front()));
  }
}

std::string text_at(const json& whole, const std::string& key, const std::string& where) {
  if (!whole.contains(key)) return {};
  if (!whole[key].is_string()) refuse(place_of(where, {key}), "it must be text, in quotes");
  return whole[key].get<std::string>();
}

void read_clock_entry(const json& whole, const std::string& where, Description& description) {
  if (!whole.contains("clock")) return;
  const std::string text = text_at(whole, "clock", where);
  description.clock_now = text == "now";
  if (description.clock_now) return;
  description.clock = parse_iso(text);
  if (!description.clock)
    refuse(place_of(where, {"clock"}),
           fmt::format("\"{}\" is not a date and time from {} to {}", printable(text), first_year,
                       last_year),
           "write it as 2031-05-14T09:30:00, or \"now\"");
}

Value read_value(const json& value, const std::string& where) {
  if (value.is_boolean()) return value.get<bool>();
  if (value.is_string()) return value.get<std::string>();
  // No field is wider than 32 bits, so larger numbers are refused with the field's own words.
  if (value.is_number_unsigned())
    return static_cast<std::int64_t>(
        std::min<std::uint64_t>(value.get<std::uint64_t>(), INT64_MAX));
  if (value.is_number_integer()) return value.get<std::int64_t>();
  refuse(where, "a field takes a whole number, true or false, or text in quotes");
}

void read_size(const json& whole, const std::string& where, Description& description) {
  if (!whole.contains("size")) return;
  const json& size = whole["size"];
  if (size != Image::small_size && size != Image::large_size)
    refuse(place_of(where, {"size"}), "a clock chip holds 64 or 128 bytes",
           "64 or 128, without quotes");
  description.size = size.get<std::size_t>();
}

void read_set(const json& whole, const std::string& where, Description& description) {
  if (!whole.contains("set")) return;
  const json& set = whole["set"];
  if (!set.is_object())
    refuse(place_of(where, {"set"}), "it must be an object",
           "list fields and their values: {\"floppy_a\": \"1.44M\"}");
  for (const auto& [id, value] : set.items())
    description.set.emplace_back(id, read_value(value, place_of(where, {"set", id})));
}

nlohmann::ordered_json to_json_value(const Value& value) {
  if (const auto* number = std::get_if<std::int64_t>(&value)) return *number;
  if (const auto* flag = std::get_if<bool>(&value)) return *flag;
  if (const auto* text = std::get_if<std::string>(&value)) return *text;
  return nullptr;
}

}  // namespace

Description parse_description(std::string_view text, const std::string& where) {
  const json whole = parse_json(text, where);
  if (!whole.is_object())
    refuse(where, "a machine description is one JSON object",
           "start from {\"layout\": \"at\", \"clock\": \"now\", \"set\": {}}");
  refuse_unknown_keys(whole, where);
  Description description;
  description.origin = where;
  description.layout = text_at(whole, "layout", where);
  description.note = text_at(whole, "note", where);
  read_size(whole, where, description);
  read_clock_entry(whole, where, description);
  read_set(whole, where, description);
  return description;
}

std::string to_json(const Description& description) {
  nlohmann::ordered_json whole;
  whole["layout"] = description.layout;
  if (description.size) whole["size"] = *description.size;
  if (description.clock_now)
    whole["clock"] = "now";
  else if (description.clock)
    whole["clock"] = to_iso(*description.clock);
  whole["set"] = nlohmann::ordered_json::object();
  for (const auto& [id, value] : description.set) whole["set"][id] = to_json_value(value);
  if (!description.note.empty()) whole["note"] = description.note;
  return printable_json(whole.dump(2)) + "\n";
}

}  // namespace rtcmend
