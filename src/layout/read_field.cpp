#include "layout/read_field.h"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <utility>

#include "base/error.h"
#include "base/text.h"

namespace rtcmend {

using nlohmann::json;

namespace {

constexpr std::pair<const char*, Meaning> meanings[] = {
    {"number", Meaning::number},    {"bcd", Meaning::bcd},     {"choice", Meaning::choice},
    {"flag", Meaning::flag},        {"bytes", Meaning::bytes}, {"text", Meaning::text},
    {"private", Meaning::concealed}};

Address read_address(const json& text) {
  return static_cast<Address>(parse_hex(text.get<std::string>(), 0x7F).value_or(0));
}

BitSlice read_slice(Address at, const json& entry, const std::string& where) {
  BitSlice slice{at, 7, 0};
  if (!entry.contains("bits")) return slice;
  slice.high = entry["bits"][0];
  slice.low = entry["bits"][1];
  if (slice.high < slice.low) refuse(where, "bits are given highest first: [7, 4]");
  return slice;
}

std::vector<BitSlice> read_place(const json& entry, const std::string& where) {
  if (entry.contains("at") == entry.contains("pieces"))
    refuse(where, "a field says either \"at\" or \"pieces\"");
  std::vector<BitSlice> bits;
  if (entry.contains("pieces")) {
    if (entry.contains("bits") || entry.contains("order"))
      refuse(where, "\"pieces\" say their own bits and order",
             "give each piece its \"bits\"; the most significant piece stands first");
    for (const json& piece : entry["pieces"])
      bits.push_back(read_slice(read_address(piece["at"]), piece, where));
    return bits;
  }
  const Range range = read_range(entry["at"], where);
  if (range.size() > 1 && entry.contains("bits"))
    refuse(where, "bits belong to one byte", "list \"pieces\" for a field over several bytes");
  for (const Address at : to_addresses(range)) bits.push_back(read_slice(at, entry, where));
  const bool needs_order = range.size() > 1 && (entry.contains("number") || entry.contains("bcd") ||
                                                entry.contains("choice"));
  if (needs_order && !entry.contains("order"))
    refuse(where, "a value over several bytes needs its \"order\"",
           "low-first or high-first, by the byte at the lower address");
  if (entry.value("order", "high-first") == "low-first") std::reverse(bits.begin(), bits.end());
  return bits;
}

/// The stored number that a key of "choice" stands for. One way to write each, so that none can be
/// given twice.
std::uint32_t read_stored_number(const std::string& key, const std::string& where) {
  constexpr std::int64_t most = 0xFFFF;
  const auto number = parse_integer(key);
  if (!number || *number < 0 || *number > most || std::to_string(*number) != key)
    refuse(where + "/choice", fmt::format("\"{}\" is not a stored number", printable(key)),
           "the keys of a choice are whole numbers from 0 to 65535 without a leading 0");
  return static_cast<std::uint32_t>(*number);
}

void read_meaning(const json& entry, const std::string& where, Field& field) {
  int given = 0;
  for (const auto& [key, meaning] : meanings) {
    if (!entry.contains(key)) continue;
    field.meaning = meaning;
    ++given;
  }
  if (given != 1)
    refuse(where,
           fmt::format("it says {} of number, bcd, choice, flag, bytes, text, private",
                       given == 0 ? "none" : "more than one"),
           "a field has exactly one of them");
  if (field.meaning == Meaning::choice)
    for (const auto& [code, name] : entry["choice"].items())
      field.choices.push_back({read_stored_number(code, where), name});
  // JSON keys come sorted as text; people count.
  std::sort(field.choices.begin(), field.choices.end(),
            [](const Choice& a, const Choice& b) { return a.raw < b.raw; });
  if (field.meaning != Meaning::number && field.meaning != Meaning::bcd) return;
  const json& number = entry[field.meaning == Meaning::bcd ? "bcd" : "number"];
  field.unit = number.value("unit", "");
  field.scale = number.value("scale", 1);
  field.offset = number.value("offset", 0);
  if (!number.contains("range")) return;
  field.least = number["range"][0].get<std::int64_t>();
  field.most = number["range"][1].get<std::int64_t>();
}

Escape read_escape(const json& entry) {
  return {entry["when"], read_address(entry["at"]), entry["range"][0], entry["range"][1]};
}

Follows read_follows(const json& entry, const std::string& where) {
  Follows follows;
  follows.least = entry.value("least", 0U);
  if (entry.contains("up_to")) follows.up_to = entry["up_to"].get<std::uint32_t>();
  if (entry.contains("same") + entry.contains("any") + entry.contains("count") != 1)
    refuse(where, "\"follows\" says one of count, any, same");
  if (entry.contains("same")) {
    follows.how = Follows::How::same;
    follows.of = {entry["same"].get<std::string>()};
    return follows;
  }
  follows.how = entry.contains("any") ? Follows::How::any : Follows::How::count;
  follows.of = entry[entry.contains("any") ? "any" : "count"].get<std::vector<std::string>>();
  return follows;
}

UsedWhile read_used_while(const json& entry, const std::string& where) {
  const BitSlice bits = read_slice(read_address(entry["at"]), entry, where);
  if (entry.contains("is") == entry.contains("range"))
    refuse(where, "a condition says either \"is\" or \"range\"");
  const unsigned least = entry.contains("is") ? entry["is"] : entry["range"][0];
  const unsigned most = entry.contains("is") ? entry["is"] : entry["range"][1];
  if (most >> bits.width() != 0)
    refuse(where, fmt::format("the condition's value {} does not fit in its bits", most));
  if (least > most) refuse(where, "its condition's range ends before it begins");
  return {bits, static_cast<std::uint8_t>(least), static_cast<std::uint8_t>(most)};
}

std::vector<UsedWhile> read_use(const json& entry, const std::string& where) {
  if (entry.is_object()) return {read_used_while(entry, where)};
  std::vector<UsedWhile> all;
  for (const json& one : entry) all.push_back(read_used_while(one, where));
  return all;
}

Value read_value(const json& entry) {
  if (entry.is_boolean()) return entry.get<bool>();
  if (entry.is_string()) return entry.get<std::string>();
  return entry.get<std::int64_t>();
}

}  // namespace

Range read_range(const json& text, const std::string& where) {
  const auto range = parse_range(text.get<std::string>());
  if (!range)
    refuse(where, fmt::format("\"{}\" is not a range", printable(text.get<std::string>())),
           "two addresses from 00 to 7F, the lower first: 10-2D");
  return *range;
}

Condition read_condition(const json& entry, const std::string& where) {
  const BitSlice slice = read_slice(read_address(entry["at"]), entry, where);
  const unsigned value = entry["is"];
  if (value >> slice.width() != 0)
    refuse(where, fmt::format("the condition's value {} does not fit in its bits", value));
  return {slice.at, slice.mask(), static_cast<std::uint8_t>(value << slice.low)};
}

Field read_field_entry(const json& entry, const std::string& where) {
  Field field;
  field.id = entry["id"];
  field.label = entry["label"];
  field.group = entry["group"];
  field.source = entry["source"];
  field.note = entry.value("note", "");
  field.bits = read_place(entry, where);
  read_meaning(entry, where, field);
  if (entry.contains("escape")) field.escape = read_escape(entry["escape"]);
  if (entry.contains("follows")) field.follows = read_follows(entry["follows"], where);
  if (entry.contains("when")) field.when = read_use(entry["when"], where);
  if (entry.contains("default")) field.preset = read_value(entry["default"]);
  field.is_volatile = entry.value("volatile", false);
  field.read_only = entry.value("read_only", false);
  field.is_partial = entry.value("partial", false);
  return field;
}

DriveType read_drive_type(const json& entry) {
  DriveType type{entry["type"],    entry["cylinders"], entry["heads"],
                 entry["sectors"], std::nullopt,       entry["landing_zone"]};
  if (!entry["write_precompensation"].is_null())
    type.write_precompensation = entry["write_precompensation"].get<int>();
  return type;
}

}  // namespace rtcmend
