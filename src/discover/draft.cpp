#include "discover/draft.h"

#include <algorithm>
#include <fmt/format.h>
#include <map>

#include "base/text.h"
#include "discover/draft_rest.h"
#include "layout/field.h"

namespace rtcmend {

using Json = nlohmann::ordered_json;

namespace {

// At most so many bytes, and no letter cut in two.
std::string cut(std::string text, std::size_t most) {
  if (text.size() <= most) return text;
  while (most > 0 && (static_cast<unsigned char>(text[most]) & 0xC0U) == 0x80) --most;
  text.resize(most);
  return text;
}

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

Json restless_entry(const std::string& id, Address at, const Image& rest) {
  Json entry = {{"id", id},
                {"label", "Changes by itself, " + hex_prose(at)},
                {"group", "restless"},
                {"at", hex2(at)},
                {"bytes", Json::object()},
                {"source", "traced: differs between dumps with nothing changed"},
                {"volatile", true}};
  if (rest.known(at)) entry["default"] = hex_at(rest, {at, at});
  return entry;
}

// The stored bytes of a check that nothing settles: shown, and neither a setting nor a proof.
Json perhaps_entry(const std::string& id, const Check& check, const Image& rest) {
  const Addresses stored = stored_addresses(check);
  const Range range{stored.front(), stored.back()};
  Json entry = {{"id", id},
                {"label", "Perhaps a check, " + to_prose(stored)},
                {"group", "open"},
                {"at", to_text(range)},
                {"bytes", Json::object()},
                {"source", "traced: it fits a check, and others as well"},
                {"read_only", true}};
  if (rest.known(range.first) && rest.known(range.last)) entry["default"] = hex_at(rest, range);
  return entry;
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

namespace {

// The schema's limits on the places of one field.
constexpr std::size_t most_bits = 32, most_pieces = 16;

// One draft in the making. Every id is given once, whatever the settings are called.
class Drafting {
 public:
  explicit Drafting(const Trace& trace) : trace_(trace) {
    for (const TracedField& field : trace.fields)
      ids_.push_back(free_id(id_from(join(field.settings, "_"))));
  }

  Draft draft() {
    add_fields();
    for (const Address at : trace_.restless)
      fields_.push_back(restless_entry(free_id(lower("restless_" + hex2(at))), at, trace_.rest));
    add_checks();
    const std::vector<std::uint8_t> taken = bits_taken();
    for (Json& field : fields_at_rest(trace_, taken)) {
      field["id"] = free_id(field["id"].get<std::string>());
      fields_.push_back(std::move(field));
    }
    note("A draft from a session of dumps: what was not changed in it is not in it.");
    for (const Contradiction& contradiction : trace_.contradictions) note(contradiction.text);
    Draft draft;
    draft.layout = {{"layout", "draft"},
                    {"title", "Draft from a session of dumps"},
                    {"size", trace_.size},
                    {"fields", fields_},
                    {"checks", checks_},
                    {"notes", notes_},
                    {"when_writing", warnings()}};
    return draft;
  }

 private:
  void add_fields() {
    for (std::size_t i = 0; i < trace_.fields.size(); ++i) {
      const TracedField& field = trace_.fields[i];
      const Encoding& encoding = field.encoding;
      if (encoding.bits.size() > most_bits || pieces_of(encoding.bits).size() > most_pieces) {
        note(ids_[i] + " moves more bits than one value holds, and is left out.");
        continue;
      }
      fields_.push_back(field_entry(field, ids_[i], trace_.rest));
      if (field.is_count) fields_.back()["follows"] = {{"count", ids_of(field.settings)}};
      for (std::size_t k = 0; k < encoding.copies.size(); ++k)
        fields_.push_back(copy_entry(field, free_id(fmt::format("{}_copy_{}", ids_[i], k + 1)),
                                     ids_[i], encoding.copies[k], trace_.rest));
    }
  }

  void add_checks() {
    for (const Model& model : trace_.checks) {
      if (!model.is_settled()) {
        const std::string id = lower("perhaps_check_" + hex2(model.check.stored_at));
        fields_.push_back(perhaps_entry(free_id(id), model.check, trace_.rest));
        continue;
      }
      checks_.push_back(check_entry(model.check, cut(standing_of(model), 400)));
      checks_.back()["id"] = free_id(model.check.id);
      settled_.push_back(&model);
    }
  }

  // By address, what the fields and checks drafted so far have.
  std::vector<std::uint8_t> bits_taken() const {
    std::vector<std::uint8_t> taken(Image::large_size, 0);
    const auto take = [&](const std::vector<Bit>& bits) {
      for (const Bit& bit : bits)
        taken[bit.at] = static_cast<std::uint8_t>(taken[bit.at] | 1U << bit.bit);
    };
    for (const TracedField& field : trace_.fields) {
      take(field.encoding.bits);
      for (const auto& copy : field.encoding.copies) take(copy);
    }
    for (const Address at : trace_.restless) taken[at] = 0xFF;
    for (const Model& model : trace_.checks)
      for (const Address at : stored_addresses(model.check)) taken[at] = 0xFF;
    return taken;
  }

  std::vector<std::string> warnings() const {
    std::vector<std::string> warnings;
    warnings.push_back(fmt::format(
        "This layout is a draft. {} of the chip never changed while it was traced: what they do, "
        "and whether the machine wants them otherwise for the new settings, nobody has seen.",
        counted(trace_.still.size(), "byte")));
    if (settled_.empty())
      warnings.push_back(
          "No check of this machine is settled, so that nothing proves an image: the machine may "
          "have a check and refuse it.");
    for (const Model* model : settled_) {
      if (!model->still.empty())
        warnings.push_back(fmt::format(
            "The check at {} is proven for what changed in the session only: {} under it never "
            "changed and may not count.",
            to_prose(stored_addresses(model->check)), counted(model->still.size(), "byte")));
      if (!model->carried)
        warnings.push_back(fmt::format("The check at {} was never seen to pass its highest value.",
                                       to_prose(stored_addresses(model->check))));
    }
    return warnings;
  }

  std::vector<std::string> ids_of(const std::vector<std::string>& settings) const {
    std::vector<std::string> ids;
    for (std::size_t i = 0; i < trace_.fields.size(); ++i)
      if (!trace_.fields[i].is_shared() &&
          std::ranges::count(settings, trace_.fields[i].settings[0]) != 0)
        ids.push_back(ids_[i]);
    return ids;
  }

  std::string free_id(const std::string& wanted) {
    used_.push_back(unused_id(wanted, used_));
    return used_.back();
  }
  void note(const std::string& text) {
    if (notes_.size() < most_notes) notes_.push_back(cut(text, 400));
  }

  static constexpr std::size_t most_notes = 60;
  const Trace& trace_;
  std::vector<std::string> ids_;  // by field
  std::vector<std::string> used_;
  std::vector<const Model*> settled_;
  Json fields_ = Json::array(), checks_ = Json::array(), notes_ = Json::array();
};

}  // namespace

Draft draft_layout(const Trace& trace) {
  return Drafting(trace).draft();
}

}  // namespace rtcmend
