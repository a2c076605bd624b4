#include "layout/load.h"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <set>

#include "base/error.h"
#include "base/json.h"
#include "base/text.h"
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

/// Gathers a layout from its file and all that it includes.
class Reader {
 public:
  Reader(const PartSource& parts, bool check_schema) : parts_(parts), check_schema_(check_schema) {}

  Layout read(std::string_view text, const std::string& where) {
    const json file = parse(text, where);
    for (const char* key : {"id", "title", "chip"})
      if (!file.contains(key)) refuse(where, fmt::format("a layout needs the key \"{}\"", key));
    layout_.id = file["id"];
    layout_.title = file["title"];
    layout_.size = file["chip"] == "chip-64" ? Image::small_size : Image::large_size;
    origins_.layout = where;
    add(file, where);
    validate(layout_, origins_);
    layout_.sealing = sealing_order(layout_.checks, where);
    return std::move(layout_);
  }

 private:
  json parse(std::string_view text, const std::string& where) const {
    json file = parse_json(text, where);
    if (check_schema_) check_against_schema(file, where);
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
    for (const json& type : file.value("drive_types", nothing))
      layout_.drive_types.push_back(read_drive_type(type));
    need_bounds(where);
  }

  void need_bounds(const std::string& where) const {
    need_at_most(most_fields, layout_.fields.size(), "fields", where);
    need_at_most(most_checks, layout_.checks.size(), "checks", where);
    need_at_most(most_drive_types, layout_.drive_types.size(), "drive types", where);
    for (const auto* lines : {&layout_.sources, &layout_.notes, &layout_.after_composing})
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
  bool check_schema_;
  Layout layout_;
  Origins origins_;
  std::vector<std::string> open_;   // names being included, outermost first
  std::set<std::string> included_;  // names that were, once each
};

}  // namespace

Layout load_layout(std::string_view text, const std::string& where, const PartSource& parts,
                   bool check_schema) {
  return Reader(parts, check_schema).read(text, where);
}

}  // namespace rtcmend
