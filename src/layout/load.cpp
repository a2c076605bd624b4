#include "layout/load.h"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <set>

#include "base/error.h"
#include "base/json.h"
#include "base/text.h"
#include "layout/library.h"
#include "layout/read_check.h"
#include "layout/read_field.h"
#include "layout/schema.h"
#include "layout/validate.h"

namespace rtcmend {

using nlohmann::json;

namespace {

// A file is bounded by the schema; what it includes, together, by these. No layout comes near them.
constexpr std::size_t deepest = 8, most_parts = 64, most_fields = 512, most_checks = 32,
                      most_lines = 256, most_drive_types = 256;

void need_at_most(std::size_t most, std::size_t count, const char* what, const std::string& where) {
  if (count > most)
    refuse(where, fmt::format("with all that it includes, it has more than {} {}", most, what));
}

/// Gathers a layout, a class or a trait from its file and all that it includes.
class Reader {
 public:
  explicit Reader(const PartSource& parts) : parts_(parts) {}

  Layout read_own(std::string_view text, const std::string& where) {
    const json file = parse(text, where);
    need_kind(file, "layout", {"of", "traits", "size"}, where);
    if (file.contains("of")) begin_with(file, where);
    return read(file, "layout", where);
  }

  LayoutClass read_class(std::string_view text, const std::string& where) {
    const json file = parse(text, where);
    need_kind(file, "class", {"families", "size"}, where);
    LayoutClass made;
    made.core = read(file, "class", where);
    made.core.of = made.core.id;
    made.families = file.value("families", json::array()).get<std::vector<std::string>>();
    return made;
  }

  Trait read_trait(std::string_view text, const std::string& where) {
    const json file = parse(text, where);
    need_kind(file, "trait", {"of", "family", "replaces", "not_with", "met_with", "presumed"},
              where);
    for (const char* key : {"of", "family"})
      if (!file.contains(key)) refuse(where, fmt::format("a trait needs the key \"{}\"", key));
    Trait made;
    made.id = file["trait"];
    made.family = file["family"];
    if (!file["of"].is_array()) refuse(where, "the \"of\" of a trait is a list of classes");
    made.of = file["of"].get<std::vector<std::string>>();
    made.replaces = file.value("replaces", json::array()).get<std::vector<std::string>>();
    made.not_with = file.value("not_with", json::array()).get<std::vector<std::string>>();
    const json met_with = file.value("met_with", json::object());
    for (const auto& [trait, standing] : met_with.items())
      made.met_with.push_back({trait, standing});
    made.presumed = file.value("presumed", false);
    gather(file, "trait", where);
    made.part = std::move(layout_);
    return made;
  }

 private:
  /// What the file is, and that it says nothing which only another kind says.
  static void need_kind(const json& file, const std::string& kind,
                        const std::vector<std::string>& own_keys, const std::string& where) {
    for (const char* key : {kind.c_str(), "title"})
      if (!file.contains(key)) refuse(where, fmt::format("a {} needs the key \"{}\"", kind, key));
    for (const char* key : {"layout", "class", "trait", "of", "traits", "size", "families",
                            "family", "replaces", "not_with", "met_with", "presumed"})
      if (file.contains(key) && key != kind &&
          std::find(own_keys.begin(), own_keys.end(), key) == own_keys.end())
        refuse(where, fmt::format("a {} has no key \"{}\"", kind, key));
  }

  /// What the built-in class and its traits have, each with its name as its place.
  void begin_with(const json& file, const std::string& where) {
    const std::string place = json_place(where, "/of");
    if (!file["of"].is_string()) refuse(place, "a layout is of one class: a name, not a list");
    std::string name = file["of"];
    for (const json& trait : file.value("traits", json::array()))
      name += "+" + trait.get<std::string>();
    try {
      layout_ = built_in_layout(name);
    } catch (const Error& error) {
      throw Error(error.refusal(), place, error.message(), error.advice());
    }
    origins_.fields.assign(layout_.fields.size(), name);
    origins_.checks.assign(layout_.checks.size(), name);
  }

  void gather(const json& file, const char* kind, const std::string& where) {
    layout_.id = file[kind];
    layout_.title = file["title"];
    origins_.layout = where;
    add(file, where);
    layout_.size = std::max(file.value("size", layout_.size), least_size(layout_));
  }

  Layout read(const json& file, const char* kind, const std::string& where) {
    gather(file, kind, where);
    validate(layout_, origins_);
    layout_.sealing = sealing_order(layout_.checks, where);
    return std::move(layout_);
  }

  json parse(std::string_view text, const std::string& where) const {
    json file = parse_json(text, where);
    check_against_schema(file, where);
    return file;
  }

  void add(const json& file, const std::string& where) {
    const json nothing = json::array();
    for (const json& name : file.value("includes", nothing)) include(name, where);
    const json fields = file.value("fields", nothing);
    for (std::size_t i = 0; i < fields.size(); ++i) {
      const std::string place = json_place(where, fmt::format("/fields/{}", i));
      layout_.fields.push_back(read_field_entry(fields[i], place));
      origins_.fields.push_back(place);
    }
    const json checks = file.value("checks", nothing);
    for (std::size_t i = 0; i < checks.size(); ++i) {
      const std::string place = json_place(where, fmt::format("/checks/{}", i));
      layout_.checks.push_back(read_check_entry(checks[i], place));
      origins_.checks.push_back(place);
    }
    for (const json& source : file.value("sources", nothing)) add_once(layout_.sources, source);
    for (const json& note : file.value("notes", nothing)) add_once(layout_.notes, note);
    for (const json& note : file.value("after_composing", nothing))
      add_once(layout_.after_composing, note);
    for (const json& note : file.value("when_writing", nothing))
      add_once(layout_.when_writing, note);
    for (const json& type : file.value("drive_types", nothing))
      layout_.drive_types.push_back(read_drive_type(type));
    need_bounds(where);
  }

  void need_bounds(const std::string& where) const {
    need_at_most(most_fields, layout_.fields.size(), "fields", where);
    need_at_most(most_checks, layout_.checks.size(), "checks", where);
    need_at_most(most_drive_types, layout_.drive_types.size(), "drive types", where);
    for (const auto* lines :
         {&layout_.sources, &layout_.notes, &layout_.after_composing, &layout_.when_writing})
      need_at_most(most_lines, lines->size(), "notes and sources", where);
  }

  void include(const std::string& name, const std::string& where) {
    const std::string place = json_place(where, "/includes");
    if (std::find(open_.begin(), open_.end(), name) != open_.end())
      refuse(place, fmt::format("\"{}\" includes itself: {}", name, join(open_, " > ")));
    // A part that several others include is there already.
    if (!included_.insert(name).second) return;
    if (open_.size() == deepest)
      refuse(place, fmt::format("parts are nested more than {} deep", deepest));
    need_at_most(most_parts, included_.size(), "parts", place);
    const std::string_view text = parts_(name);
    if (text.empty())
      refuse(place, fmt::format("there is no part \"{}\"", name),
             Advice{{"See the built-in ones", Act{Act::Kind::list, "layouts", {}}}});
    open_.push_back(name);
    add(parse(text, name), name);
    open_.pop_back();
  }

  static void add_once(std::vector<std::string>& lines, const std::string& line) {
    if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(line);
  }

  const PartSource& parts_;
  Layout layout_;
  Origins origins_;
  std::vector<std::string> open_;   // names being included, outermost first
  std::set<std::string> included_;  // names that were, once each
};

}  // namespace

Layout load_layout(std::string_view text, const std::string& where, const PartSource& parts) {
  return Reader(parts).read_own(text, where);
}

LayoutClass load_class(std::string_view text, const std::string& where, const PartSource& parts) {
  return Reader(parts).read_class(text, where);
}

Trait load_trait(std::string_view text, const std::string& where, const PartSource& parts) {
  return Reader(parts).read_trait(text, where);
}

void prove_trait(const Trait& trait, const LayoutClass& layout_class) {
  const auto& families = layout_class.families;
  if (std::find(families.begin(), families.end(), trait.family) == families.end())
    refuse(trait.id, fmt::format("the class {} has no family \"{}\"", layout_class.core.id,
                                 printable(trait.family)));
  for (const std::string& id : trait.replaces) {
    const auto has_id = [&](const auto& entry) { return entry.id == id; };
    if (std::ranges::none_of(layout_class.core.fields, has_id) &&
        std::ranges::none_of(layout_class.core.checks, has_id))
      refuse(trait.id, fmt::format("it replaces \"{}\", which the class {} has not", printable(id),
                                   layout_class.core.id));
  }
  const Layout both = assemble(layout_class, {&trait});
  Origins origins{both.id, {}, {}};
  origins.fields.assign(both.fields.size(), both.id);
  origins.checks.assign(both.checks.size(), both.id);
  validate(both, origins);
}

}  // namespace rtcmend
