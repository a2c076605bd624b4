#include "discover/stale.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "layout/codec.h"

namespace rtcmend {

using Json = nlohmann::ordered_json;

namespace {

bool holds(const Check& check, std::span<const Image> dumps) {
  return std::ranges::all_of(dumps, [&](const Image& dump) {
    const CheckResult result = evaluate(check, dump);
    return !result.counts || !result.stored || !result.computed || result.stored == result.computed;
  });
}

// The covered bytes of settings: the dumps behind the draft showed that they count.
Addresses proven_bytes(const Check& check, const Layout& layout) {
  Addresses proven;
  for (const Address at : covered_addresses(check))
    for (const Field* field : layout.fields_at(at))
      if (!field->read_only && !field->is_volatile) proven.push_back(at);
  return proven;
}

std::optional<Check> narrowed(const Check& check, const Layout& layout,
                              std::span<const Image> dumps) {
  if (check.over.size() != 1 || check.over[0].when || check.when) return std::nullopt;
  const Range old = check.over[0].range;
  const Addresses proven = proven_bytes(check, layout);
  if (proven.empty()) return std::nullopt;
  const auto [low, high] = std::ranges::minmax(proven);
  std::optional<Check> widest;
  for (unsigned first = old.first; first <= low; ++first) {
    for (unsigned last = old.last; last >= high; --last) {
      Check one = check;
      one.over[0].range = {static_cast<Address>(first), static_cast<Address>(last)};
      const bool wider = !widest || one.over[0].range.size() > widest->over[0].range.size();
      if (wider && holds(one, dumps)) widest = one;
    }
  }
  return widest;
}

// True when the entry stays, with what was changed about it.
bool retest_check(const Check& check, const Layout& layout, std::span<const Image> dumps,
                  Json& entry, std::vector<std::string>& notes) {
  if (holds(check, dumps)) return true;
  const auto narrow = narrowed(check, layout, dumps);
  if (!narrow) {
    notes.push_back(
        fmt::format("{} of the draft does not hold in the new dumps, and was dropped.", check.id));
    return false;
  }
  const std::string range = to_text(narrow->over[0].range);
  notes.push_back(
      fmt::format("{} of the draft does not hold in the new dumps; over {} it does, and "
                  "was narrowed to that.",
                  check.id, range));
  entry["over"] = {range};
  entry["source"] = "narrowed by later dumps to the widest range that holds; it may be narrower";
  return true;
}

bool still_holds(const Field& field, std::span<const Image> dumps) {
  if (field.group != "never changed") return true;
  return std::ranges::all_of(dumps, [&](const Image& dump) {
    const FieldReading reading = read_field(field, dump);
    return !reading.known || reading.value == field.preset;
  });
}

const Check* check_named(const Layout& layout, const std::string& id) {
  const auto found = std::ranges::find(layout.checks, id, &Check::id);
  return found == layout.checks.end() ? nullptr : &*found;
}

void retest_checks(std::span<const Image> dumps, Layout& layout, Draft& draft) {
  if (!draft.layout.contains("checks")) return;
  Json kept = Json::array();
  for (Json& entry : draft.layout["checks"]) {
    const auto id = entry["id"].get<std::string>();
    const Check* check = check_named(layout, id);
    if (check == nullptr || retest_check(*check, layout, dumps, entry, draft.notes))
      kept.push_back(entry);
    else
      std::erase_if(layout.checks, [&](const Check& each) { return each.id == id; });
  }
  draft.layout["checks"] = kept;
}

void retest_still(std::span<const Image> dumps, Layout& layout, Draft& draft) {
  if (!draft.layout.contains("fields")) return;
  Json kept = Json::array();
  for (const Json& entry : draft.layout["fields"]) {
    const auto id = entry["id"].get<std::string>();
    const Field* field = layout.field(id);
    if (field == nullptr || still_holds(*field, dumps)) {
      kept.push_back(entry);
      continue;
    }
    draft.notes.push_back(id + " never changed before, is another now, and was dropped.");
    std::erase_if(layout.fields, [&](const Field& each) { return each.id == id; });
  }
  draft.layout["fields"] = kept;
}

}  // namespace

void retest(std::span<const Image> dumps, Layout& layout, Draft& draft) {
  if (dumps.empty() || dumps.front().size() < least_size(layout)) return;
  retest_checks(dumps, layout, draft);
  retest_still(dumps, layout, draft);
}

}  // namespace rtcmend
