#include "discover/draft_fields.h"

#include <algorithm>
#include <fmt/format.h>
#include <map>

#include "base/text.h"
#include "layout/field.h"

namespace rtcmend {

using Json = nlohmann::ordered_json;

namespace {

// Neighbouring bits of one byte are one piece.
Json pieces_of(const std::vector<Bit>& bits) {
  std::vector<BitSlice> slices;
  for (const Bit& bit : bits) {
    if (!slices.empty() && slices.back().at == bit.at && slices.back().low == bit.bit + 1)
      slices.back().low = bit.bit;
    else
      slices.push_back({bit.at, bit.bit, bit.bit});
  }
  Json pieces = Json::array();
  for (const BitSlice& slice : slices)
    pieces.push_back({{"at", hex2(slice.at)}, {"bits", {slice.high, slice.low}}});
  return pieces;
}

void place_bits(const std::vector<Bit>& bits, Json& entry) {
  const Json pieces = pieces_of(bits);
  if (pieces.size() > 1) {
    entry["pieces"] = pieces;
    return;
  }
  entry["at"] = pieces[0]["at"];
  if (bits.size() < 8) entry["bits"] = pieces[0]["bits"];
}

// Values that are stored alike share a code; the layout then names both.
std::map<std::uint64_t, std::string> names_by_code(const TracedField& field) {
  std::map<std::uint64_t, std::string> names;
  for (const TracedValue& value : field.values) {
    std::string& name = names[value.raw];
    if (name.find(value.value) == std::string::npos)
      name += (name.empty() ? "" : " or ") + value.value;
  }
  return names;
}

// The schema's limits on a choice: a code has five digits, a name sixty letters.
bool fits_a_choice(const std::map<std::uint64_t, std::string>& names, std::size_t bits) {
  return bits <= 16 && std::ranges::all_of(names, [](const auto& name) {
           return !name.second.empty() && name.second.size() <= 60;
         });
}

Json choice_of(const std::map<std::uint64_t, std::string>& names) {
  Json choice = Json::object();
  for (const auto& [code, name] : names) choice[std::to_string(code)] = name;
  return choice;
}

void say_meaning(const TracedField& field, Json& entry) {
  const Encoding& encoding = field.encoding;
  switch (encoding.kind) {
    case Encoding::Kind::flag:
      entry["flag"] = Json::object();
      return;
    case Encoding::Kind::bcd:
    case Encoding::Kind::number: {
      Json number = Json::object();
      if (!encoding.unit.empty()) number["unit"] = encoding.unit;
      if (encoding.scale != 1) number["scale"] = encoding.scale;
      if (encoding.offset != 0) number["offset"] = encoding.offset;
      entry[encoding.kind == Encoding::Kind::bcd ? "bcd" : "number"] = number;
      return;
    }
    case Encoding::Kind::choice:
      break;
  }
  const auto names = names_by_code(field);
  if (field.is_shared() || !fits_a_choice(names, encoding.bits.size()))
    entry["number"] = Json::object();
  else
    entry["choice"] = choice_of(names);
}

std::string support_of(const TracedField& field) {
  std::size_t least = field.values.empty() ? 0 : field.values.front().dumps;
  for (const TracedValue& value : field.values) least = std::min(least, value.dumps);
  const std::string rounds = least == 1 ? "one dump each, so a guess until seen twice"
                                        : fmt::format("at least {} dumps each", least);
  return fmt::format("traced: {} values, {}", field.values.size(), rounds);
}

std::string rule_in_words(const TracedField& field) {
  const std::size_t values = field.values.size();
  switch (field.encoding.kind) {
    case Encoding::Kind::number:
      return values > 2 ? "A number: all values lie on one line."
                        : "Taken for a number from two values only.";
    case Encoding::Kind::bcd:
      return "Decimal digits, four bits each.";
    case Encoding::Kind::flag:
      return "";
    case Encoding::Kind::choice:
      break;
  }
  return field.is_shared() ? "" : "Codes without a rule: values not tried are unknown.";
}

std::string note_of(const TracedField& field) {
  std::vector<std::string> notes;
  if (!field.open.empty()) notes.push_back("Not settled, so shown only: " + field.open + ".");
  if (field.is_count) notes.push_back("It counts " + join(field.settings, " and ") + ".");
  if (field.encoding.digits_open)
    notes.push_back("A number or decimal digits: only a value above 9 tells.");
  if (const std::string rule = rule_in_words(field); !rule.empty()) notes.push_back(rule);
  if (!field.drags.empty()) notes.push_back("Moves " + join(field.drags, ", ") + " along.");
  if (!field.dragged_by.empty())
    notes.push_back("Moved along by " + join(field.dragged_by, ", ") + ".");
  return cut(join(notes, " "), 400);
}

// What the setting was at in the first dump, so that composing starts there.
void add_default(const TracedField& field, const Image& rest, Json& entry) {
  if (!std::ranges::all_of(field.encoding.bits, [&](const Bit& bit) { return rest.known(bit.at); }))
    return;
  const std::uint64_t raw = raw_of(field.encoding.bits, rest);
  if (entry.contains("flag")) entry["default"] = raw != 0;
  if (entry.contains("number"))
    entry["default"] =
        static_cast<std::int64_t>(raw) * field.encoding.scale + field.encoding.offset;
  if (entry.contains("choice") && entry["choice"].contains(std::to_string(raw)))
    entry["default"] = entry["choice"][std::to_string(raw)];
  for (const TracedValue& value : field.values)
    if (entry.contains("bcd") && value.raw == raw)
      entry["default"] = parse_quantity(value.value)->number;
}

}  // namespace

std::string cut(std::string text, std::size_t most) {
  if (text.size() <= most) return text;
  while (most > 0 && (static_cast<unsigned char>(text[most]) & 0xC0U) == 0x80) --most;
  text.resize(most);
  return text;
}

std::size_t count_pieces(const std::vector<Bit>& bits) {
  return pieces_of(bits).size();
}

Json field_entry(const TracedField& field, const std::string& id, const Image& rest) {
  Json entry = {{"id", id},
                {"label", cut(join(field.settings, " and "), 80)},
                {"group", field.is_shared() ? "worked out" : "traced"}};
  place_bits(field.encoding.bits, entry);
  say_meaning(field, entry);
  entry["source"] = support_of(field);
  if (!field.is_count) add_default(field, rest, entry);
  if (entry.contains("choice") || entry.contains("bcd")) entry["partial"] = true;
  if (!field.open.empty()) entry["read_only"] = true;
  if (const std::string note = note_of(field); !note.empty()) entry["note"] = note;
  return entry;
}

Json copy_entry(const TracedField& field, const std::string& id, const std::string& of,
                const std::vector<Bit>& bits, const Image& rest) {
  TracedField copy = field;
  copy.encoding.bits = bits;
  Json entry = field_entry(copy, id, rest);
  entry.erase("default");
  entry["note"] = "The same value once more.";
  entry["follows"] = {{"same", of}};
  return entry;
}

}  // namespace rtcmend
