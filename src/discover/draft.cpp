#include "discover/draft.h"

#include <algorithm>
#include <fmt/format.h>
#include <map>

#include "base/text.h"
#include "layout/field.h"

namespace rtcmend {

using Json = nlohmann::ordered_json;

namespace {

std::string word_hex(unsigned width, std::uint16_t value) {
  return width == 8 ? fmt::format("{:02X}", value) : fmt::format("{:04X}", value);
}

Json sum_entry(const SumRule& sum) {
  Json entry = {{"width", sum.width}};
  if (sum.start != 0) entry["start"] = word_hex(sum.width, sum.start);
  if (sum.sign != Sign::plain) entry["sign"] = name(sum.sign);
  if (sum.pairs) entry["pairs"] = name(*sum.pairs);
  return entry;
}

Json crc_entry(const CrcModel& model) {
  return {{"width", model.width},
          {"poly", word_hex(model.width, model.poly)},
          {"init", word_hex(model.width, model.init)},
          {"refin", model.refin},
          {"refout", model.refout},
          {"xorout", word_hex(model.width, model.xorout)}};
}

Json rule_entry(const Rule& rule) {
  if (const auto* sum = std::get_if<SumRule>(&rule)) return sum_entry(*sum);
  if (const auto* crc = std::get_if<CrcRule>(&rule)) return crc_entry(crc->model);
  if (const auto* all = std::get_if<XorRule>(&rule)) return {{"start", word_hex(8, all->start)}};
  return {{"target", word_hex(8, std::get<BalanceRule>(rule).target)}};
}

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
  if (field.is_shared()) notes.push_back("Worked out from " + join(field.settings, " and ") + ".");
  if (const std::string rule = rule_in_words(field); !rule.empty()) notes.push_back(rule);
  if (!field.drags.empty()) notes.push_back("Moves " + join(field.drags, ", ") + " along.");
  if (!field.dragged_by.empty())
    notes.push_back("Moved along by " + join(field.dragged_by, ", ") + ".");
  return join(notes, " ").substr(0, 400);
}

Json field_entry(const TracedField& field, const std::string& id) {
  Json entry = {{"id", id},
                {"label", join(field.settings, " and ").substr(0, 80)},
                {"group", field.is_shared() ? "worked out" : "traced"}};
  place_bits(field.encoding.bits, entry);
  say_meaning(field, entry);
  entry["source"] = support_of(field);
  if (const std::string note = note_of(field); !note.empty()) entry["note"] = note;
  return entry;
}

Json copy_entry(const TracedField& field, const std::string& id, const std::vector<Bit>& bits,
                std::size_t number) {
  TracedField copy = field;
  copy.encoding.bits = bits;
  Json entry = field_entry(copy, fmt::format("{}_copy_{}", id, number));
  entry["note"] = "The same value once more.";
  entry["follows"] = {{"same", id}};
  return entry;
}

Json restless_entry(Address at) {
  return {{"id", lower("restless_" + hex2(at))},
          {"label", "Changes by itself, " + hex_prose(at)},
          {"group", "restless"},
          {"at", hex2(at)},
          {"bytes", Json::object()},
          {"source", "traced: differs between dumps with nothing changed"},
          {"volatile", true}};
}

std::string unused_id(const std::string& wanted, const std::vector<std::string>& used) {
  std::string id = wanted;
  for (int i = 2; std::ranges::count(used, id) != 0; ++i) id = fmt::format("{}_{}", wanted, i);
  return id;
}

std::string standing_of(const Model& model) {
  if (model.chance == 0) return "of the known layout, and it holds in every dump of the session";
  std::string text =
      fmt::format("solved: by luck {:.1g} checks would agree with these dumps", model.chance);
  if (!model.found()) text = "guessed, " + text;
  if (model.firsts.size() > 1 || model.lasts.size() > 1)
    text += fmt::format("; the range may begin at {} to {} and end at {} to {}",
                        hex_prose(model.firsts.first), hex_prose(model.firsts.last),
                        hex_prose(model.lasts.first), hex_prose(model.lasts.last));
  return text;
}

}  // namespace

std::string id_from(std::string_view words) {
  std::string id;
  for (const char c : lower(words)) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (plain)
      id += c;
    else if (!id.empty() && id.back() != '_')
      id += '_';
  }
  while (id.ends_with('_')) id.pop_back();
  if (id.empty() || !(id[0] >= 'a' && id[0] <= 'z')) id = "setting_" + id;
  while (id.ends_with('_')) id.pop_back();
  return id.substr(0, 48);
}

Json check_entry(const Check& check, const std::string& source) {
  Json entry = {{"id", check.id}};
  entry[kind(check)] = rule_entry(check.rule);
  entry["over"] = Json::array();
  for (const Covered& covered : check.over) entry["over"].push_back(to_text(covered.range));
  entry["stored"] = {{"at", hex2(check.stored_at)}};
  if (width(check) == 16) entry["stored"]["order"] = name(check.order);
  entry["source"] = source;
  return entry;
}

Draft draft_layout(const Trace& trace) {
  Draft draft;
  Json fields = Json::array(), checks = Json::array(), notes = Json::array();
  std::vector<std::string> used;
  for (const TracedField& field : trace.fields) {
    const std::string id = unused_id(id_from(join(field.settings, "_")), used);
    used.push_back(id);
    if (field.encoding.bits.size() > 32) {
      notes.push_back(
          (id + " moves more bits than one number holds, and is left out.").substr(0, 400));
      continue;
    }
    fields.push_back(field_entry(field, id));
    for (std::size_t i = 0; i < field.encoding.copies.size(); ++i)
      fields.push_back(copy_entry(field, id, field.encoding.copies[i], i + 1));
  }
  for (const Address at : trace.restless) fields.push_back(restless_entry(at));
  for (const Model& model : trace.checks)
    checks.push_back(check_entry(model.check, standing_of(model)));
  notes.push_back("A draft from a session of dumps: what was not changed in it is not in it.");
  for (const Contradiction& contradiction : trace.contradictions)
    notes.push_back(contradiction.text.substr(0, 400));
  draft.layout = {{"layout", "draft"},  {"title", "Draft from a session of dumps"},
                  {"size", trace.size}, {"fields", fields},
                  {"checks", checks},   {"notes", notes}};
  return draft;
}

}  // namespace rtcmend
