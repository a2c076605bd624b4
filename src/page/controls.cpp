#include "page/controls.h"

#include <fmt/format.h>

#include "base/text.h"

namespace rtcmend {

namespace {

std::string slice_words(const BitSlice& slice) {
  if (slice.width() == 8) return hex_prose(slice.at);
  if (slice.width() == 1) return fmt::format("{} bit {}", hex_prose(slice.at), slice.high);
  return fmt::format("{} bits {}-{}", hex_prose(slice.at), slice.high, slice.low);
}

bool whole_bytes(const Field& field) {
  for (const BitSlice& slice : field.bits)
    if (slice.width() != 8) return false;
  return true;
}

std::string place_words(const Field& field) {
  if (whole_bytes(field)) return to_prose(addresses(field));
  std::vector<std::string> words;
  for (const BitSlice& slice : field.bits) words.push_back(slice_words(slice));
  std::string text = join(words, ", ");
  if (field.escape) text += fmt::format(", then {}", hex_prose(field.escape->at));
  return text;
}

void add_number(const Field& field, Json& json) {
  json["kind"] = "number";
  json["least"] = least_value(field);
  json["most"] = field.escape ? std::int64_t{field.escape->most} : most_value(field);
  json["step"] = field.scale;
  json["unit"] = field.unit;
}

void add_choices(const Field& field, Json& json) {
  json["kind"] = "choice";
  json["choices"] = Json::array();
  for (const Choice& choice : field.choices) json["choices"].push_back(choice.name);
}

Json control_json(const Field& field) {
  Json json;
  json["kind"] = "none";
  if (field.read_only || field.meaning == Meaning::concealed) return json;
  json["legal"] = legal_values(field);
  switch (field.meaning) {
    case Meaning::number:
    case Meaning::bcd:
      add_number(field, json);
      break;
    case Meaning::choice:
      add_choices(field, json);
      break;
    case Meaning::flag:
      json["kind"] = "switch";
      break;
    case Meaning::bytes:
      json["kind"] = "bytes";
      json["digits"] = 2 * field.bits.size();
      break;
    case Meaning::text:
      json["kind"] = "text";
      json["letters"] = field.bits.size();
      break;
    case Meaning::concealed:
      break;
  }
  return json;
}

/// The value as the control holds it: words for a choice, digits without a unit for a number.
std::string entry(const FieldReading& reading) {
  if (!reading.known || reading.field->meaning == Meaning::concealed) return {};
  if (const auto* number = std::get_if<std::int64_t>(&reading.value))
    return std::to_string(*number);
  if (const auto* yes = std::get_if<bool>(&reading.value)) return *yes ? "yes" : "no";
  if (const auto* word = std::get_if<std::string>(&reading.value)) return *word;
  return {};
}

}  // namespace

Json field_with_control(const FieldReading& reading) {
  const Field& field = *reading.field;
  const bool hidden = field.meaning == Meaning::concealed;
  Json json;
  json["id"] = field.id;
  json["label"] = field.label;
  json["group"] = field.group;
  json["at"] = addresses(field);
  json["bits"] = place_words(field);
  json["text"] = reading.text;
  json["entry"] = entry(reading);
  json["known"] = reading.known;
  json["inUse"] = reading.in_use;
  json["legal"] = reading.legal;
  json["problem"] = hidden ? std::string() : reading.problem;
  json["note"] = field.note;
  json["follows"] = describe_follows(field);
  json["source"] = field.source;
  json["control"] = control_json(field);
  return json;
}

}  // namespace rtcmend
