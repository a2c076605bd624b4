#include <algorithm>
#include <fmt/format.h>
#include <set>

#include "base/error.h"
#include "base/text.h"
#include "discover/draft.h"
#include "discover/stale.h"

namespace rtcmend {

using Json = nlohmann::ordered_json;

namespace {

using Claim = std::pair<unsigned, unsigned>;  // address, bit

void claim_slice(const std::string& at, const Json& entry, std::set<Claim>& claims) {
  const auto range = parse_range(at);
  if (!range) return;
  const unsigned high = entry.contains("bits") ? entry["bits"][0].get<unsigned>() : 7;
  const unsigned low = entry.contains("bits") ? entry["bits"][1].get<unsigned>() : 0;
  for (const Address address : to_addresses(*range))
    for (unsigned bit = low; bit <= high; ++bit) claims.emplace(address, bit);
}

std::set<Claim> claims_of_field(const Json& field) {
  std::set<Claim> claims;
  if (field.contains("at")) claim_slice(field["at"].get<std::string>(), field, claims);
  if (field.contains("pieces"))
    for (const Json& piece : field["pieces"])
      claim_slice(piece["at"].get<std::string>(), piece, claims);
  if (field.contains("escape")) claim_slice(field["escape"]["at"].get<std::string>(), {}, claims);
  return claims;
}

std::set<Claim> claims_of_check(const Json& check) {
  std::set<Claim> claims;
  const auto at = parse_hex(check["stored"]["at"].get<std::string>(), 0x7F);
  if (!at) return claims;
  for (const char* kind : {"sum", "crc"})
    if (check.contains(kind) && check[kind]["width"] == 16)
      claim_slice(hex2(static_cast<std::uint8_t>(*at + 1)), {}, claims);
  claim_slice(hex2(static_cast<std::uint8_t>(*at)), {}, claims);
  return claims;
}

bool meet(const std::set<Claim>& a, const std::set<Claim>& b) {
  return std::ranges::any_of(a, [&](const Claim& claim) { return b.contains(claim); });
}

Json* named(Json& list, const Json& id) {
  for (Json& entry : list)
    if (entry["id"] == id) return &entry;
  return nullptr;
}

// A field that is there already learns the codes it did not know.
void learn_codes(Json& old_field, const Json& field, Draft& draft) {
  const std::string id = field["id"].get<std::string>();
  if (!old_field.contains("choice") || !field.contains("choice") ||
      claims_of_field(old_field) != claims_of_field(field)) {
    draft.notes.push_back(fmt::format("{} is in the draft already and was left as it is.", id));
    return;
  }
  for (const auto& [code, name] : field["choice"].items()) {
    if (!old_field["choice"].contains(code)) {
      old_field["choice"][code] = name;
    } else if (old_field["choice"][code] != name) {
      draft.notes.push_back(fmt::format("{}: code {} was {} and now showed {}; it was left.", id,
                                        code, old_field["choice"][code].get<std::string>(),
                                        name.get<std::string>()));
    }
  }
}

// Parts that the draft includes claim bits as well.
std::set<Claim> claims_of_layout(const Layout& layout) {
  std::set<Claim> claims;
  for (const Field& field : layout.fields) {
    for (const BitSlice& slice : field.bits)
      for (unsigned bit = slice.low; bit <= slice.high; ++bit) claims.emplace(slice.at, bit);
    if (field.escape) claim_slice(hex2(static_cast<std::uint8_t>(field.escape->at)), {}, claims);
  }
  for (const Check& check : layout.checks)
    for (const Address at : stored_addresses(check))
      claim_slice(hex2(static_cast<std::uint8_t>(at)), {}, claims);
  return claims;
}

// What is found at bits that nobody claims yet.
void add_entry(const char* list, const Json& entry, std::set<Claim> wanted, std::set<Claim>& taken,
               Draft& draft) {
  if (meet(taken, wanted)) {
    draft.notes.push_back(
        fmt::format("{} wants bits that the draft gives to something else, and was left out.",
                    entry["id"].get<std::string>()));
    return;
  }
  taken.merge(wanted);
  draft.layout[list].push_back(entry);
}

bool has_check(const Layout& layout, const std::string& id) {
  return std::ranges::any_of(layout.checks, [&](const Check& check) { return check.id == id; });
}

bool stays_still(const Json& field) {
  return field["group"] == "never changed";
}

std::set<Claim> claims_by_settings(const Draft& found) {
  std::set<Claim> claims;
  for (const Json& field : found.layout["fields"])
    if (!stays_still(field)) claims.merge(claims_of_field(field));
  for (const Json& check : found.layout["checks"]) claims.merge(claims_of_check(check));
  return claims;
}

// What was taken for never changing gives way to what moves there.
void make_room(const std::set<Claim>& wanted, Layout& layout, Draft& draft) {
  if (!draft.layout.contains("fields")) return;
  Json kept = Json::array();
  for (const Json& field : draft.layout["fields"]) {
    if (!stays_still(field) || !meet(wanted, claims_of_field(field))) {
      kept.push_back(field);
      continue;
    }
    const std::string id = field["id"].get<std::string>();
    draft.notes.push_back(id +
                          " was taken for never changing; something moves there, and it went.");
    std::erase_if(layout.fields, [&](const Field& each) { return each.id == id; });
  }
  draft.layout["fields"] = kept;
}

// What a write must say of either draft; that no check is settled, only while there is none.
void join_warnings(const Draft& found, Draft& draft) {
  if (!found.layout.contains("when_writing")) return;
  Json lines = draft.layout.value("when_writing", Json::array());
  for (const Json& line : found.layout["when_writing"]) {
    const bool is_general = line.get<std::string>().starts_with("This layout is a draft.");
    if (std::ranges::count(lines, line) == 0 && (!is_general || lines.empty()))
      lines.push_back(line);
  }
  Json kept = Json::array();
  for (const Json& line : lines)
    if ((draft.layout["checks"].empty() || !line.get<std::string>().starts_with("No check")) &&
        kept.size() < most_warnings)
      kept.push_back(line);
  draft.layout["when_writing"] = kept;
}

}  // namespace

Draft merge_draft(const EarlierDraft& earlier_draft, const Draft& found,
                  std::span<const Image> dumps) {
  Draft draft;
  draft.layout = Json::parse(earlier_draft.text);
  EarlierDraft earlier = earlier_draft;
  retest(dumps, earlier.layout, draft);
  make_room(claims_by_settings(found), earlier.layout, draft);
  if (earlier.layout.size > found.layout["size"].get<std::size_t>())
    refuse(earlier.where, "the draft needs more bytes than the dumps have",
           Advice("make a draft of its own, merged into none"));
  for (const char* list : {"fields", "checks"})
    if (!draft.layout.contains(list)) draft.layout[list] = Json::array();
  std::set<Claim> taken = claims_of_layout(earlier.layout);
  for (const Json& field : found.layout["fields"]) {
    const std::string id = field["id"].get<std::string>();
    if (stays_still(field)) {
      const std::set<Claim> wanted = claims_of_field(field);
      if (!meet(taken, wanted) && named(draft.layout["fields"], id) == nullptr)
        add_entry("fields", field, wanted, taken, draft);
      continue;
    }
    if (Json* old_field = named(draft.layout["fields"], id))
      learn_codes(*old_field, field, draft);
    else if (earlier.layout.field(id) != nullptr)
      draft.notes.push_back(
          fmt::format("{} is in a part that the draft includes and was left as it is.", id));
    else
      add_entry("fields", field, claims_of_field(field), taken, draft);
  }
  for (const Json& check : found.layout["checks"])
    if (!has_check(earlier.layout, check["id"].get<std::string>()))
      add_entry("checks", check, claims_of_check(check), taken, draft);
  join_warnings(found, draft);
  return draft;
}

}  // namespace rtcmend
