#include "discover/draft.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "discover/draft_fields.h"
#include "discover/draft_rest.h"
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
    draft.layout = {{"layout", "draft"},         {"title", "Draft from a session of dumps"},
                    {"size", trace_.size},       {"fields", fields_},
                    {"checks", checks_},         {"notes", notes_},
                    {"when_writing", warnings()}};
    return draft;
  }

 private:
  void add_fields() {
    for (std::size_t i = 0; i < trace_.fields.size(); ++i) {
      const TracedField& field = trace_.fields[i];
      const Encoding& encoding = field.encoding;
      if (encoding.bits.size() > most_bits || count_pieces(encoding.bits) > most_pieces) {
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
        "and whether the machine wants them otherwise for the new settings, nobody has seen; nor "
        "what one setting makes of another when both are changed.",
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
    warn_of_drags(warnings);
    if (warnings.size() > most_warnings) warnings.resize(most_warnings);
    return warnings;
  }

  // A layout cannot say what one value of a setting makes of another: the user has to know.
  void warn_of_drags(std::vector<std::string>& warnings) const {
    for (const TracedField& field : trace_.fields) {
      if (field.drags.empty()) continue;
      warnings.push_back(
          cut(fmt::format(
                  "In the machine, some value of {} changes {} as well; nothing here does that. "
                  "Give them together only values that the machine was seen to store together.",
                  join(field.settings, " and "), join(field.drags, " and ")),
              400));
    }
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
