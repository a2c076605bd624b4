#include "layout/library.h"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/error.h"
#include "base/json.h"
#include "base/text.h"
#include "layout/embedded.h"
#include "layout/packed.h"
#include "layout/read_field.h"

namespace rtcmend {

namespace {

const PackedPiece* piece_named(std::span<const PackedPiece> pieces, std::string_view id) {
  const auto found = std::find_if(pieces.begin(), pieces.end(),
                                  [&](const PackedPiece& piece) { return piece.id == id; });
  return found == pieces.end() ? nullptr : &*found;
}

/// "at+sum-40-7d" in its parts, the class first.
std::vector<std::string_view> parts_of(std::string_view name) {
  std::vector<std::string_view> parts;
  for (;;) {
    const std::size_t plus = name.find('+');
    parts.push_back(name.substr(0, plus));
    if (plus == std::string_view::npos) return parts;
    name.remove_prefix(plus + 1);
  }
}

bool has_class(const Trait& trait, std::string_view id) {
  return std::find(trait.of.begin(), trait.of.end(), id) != trait.of.end();
}

Advice near_or_list(std::string_view wanted, const std::vector<std::string>& names,
                    const char* otherwise) {
  const auto near = nearest(wanted, names);
  if (!near.empty()) return "did you mean " + join(near, " or ") + "?";
  return {{otherwise, Act{Act::Kind::list, "layouts", {}}}};
}

[[noreturn]] void refuse_class(std::string_view name) {
  refuse("layout", fmt::format("there is no built-in layout \"{}\"", printable(name)),
         near_or_list(name, built_in_layouts(),
                      "A layout of your own is given as a file; see the built-in ones"));
}

[[noreturn]] void refuse_trait(std::string_view layout_class, std::string_view trait) {
  std::vector<std::string> names;
  for (const Trait& known : built_in_traits())
    if (has_class(known, layout_class)) names.push_back(known.id);
  refuse("layout",
         fmt::format("the class {} has no trait \"{}\"", layout_class, printable(trait)),
         near_or_list(trait, names, "See its traits"));
}

/// A name's class and traits, as packed.
struct Resolved {
  const PackedPiece* layout_class;
  std::vector<const PackedPiece*> traits;
};

Resolved resolve(std::string_view name) {
  const auto parts = parts_of(name);
  const PackedPiece* layout_class = piece_named(packed_classes(), parts.front());
  if (layout_class == nullptr) refuse_class(name);
  Resolved resolved{layout_class, {}};
  for (std::size_t i = 1; i < parts.size(); ++i) {
    const PackedPiece* trait = piece_named(packed_traits(), parts[i]);
    if (trait == nullptr) refuse_trait(layout_class->id, parts[i]);
    resolved.traits.push_back(trait);
  }
  return resolved;
}

Layout assembled(const Resolved& resolved) {
  const LayoutClass layout_class = unpack_class(resolved.layout_class->bytes, Unpacked::whole);
  std::vector<Trait> traits;
  for (const PackedPiece* trait : resolved.traits)
    traits.push_back(unpack_trait(trait->bytes, Unpacked::whole));
  std::vector<const Trait*> chosen;
  for (const Trait& trait : traits) chosen.push_back(&trait);
  return assemble(layout_class, chosen);
}

template <typename Made>
std::vector<Made> all_of(std::span<const PackedPiece> pieces,
                         Made (*unpack)(std::string_view, Unpacked), Unpacked how) {
  std::vector<Made> made;
  made.reserve(pieces.size());
  for (const PackedPiece& piece : pieces) made.push_back(unpack(piece.bytes, how));
  return made;
}

void add_pattern(const LayoutClass& of, const Trait* trait, std::size_t image_size,
                 Patterns& patterns) {
  Layout layout = trait == nullptr ? of.core : assemble(of, {trait});
  if (layout.size > image_size) return;
  const Layout nothing;
  const Layout& own = trait == nullptr ? nothing : trait->part;
  patterns.about.push_back({&of, trait, layout.fields.size() - own.fields.size(),
                            layout.checks.size() - own.checks.size()});
  patterns.layouts.push_back(std::move(layout));
}

Patterns made_patterns(std::size_t image_size) {
  Patterns patterns;
  for (const LayoutClass& layout_class : built_in_classes()) {
    add_pattern(layout_class, nullptr, image_size, patterns);
    for (const Trait& trait : built_in_traits())
      if (has_class(trait, layout_class.core.id) && least_size(trait.part) <= image_size)
        add_pattern(layout_class, &trait, image_size, patterns);
  }
  return patterns;
}

}  // namespace

std::vector<std::string> built_in_layouts() {
  std::vector<std::string> names;
  for (const LayoutClass& layout_class : built_in_classes()) {
    names.push_back(layout_class.core.id);
    for (const Trait& trait : built_in_traits())
      if (has_class(trait, layout_class.core.id))
        names.push_back(layout_class.core.id + "+" + trait.id);
  }
  return names;
}

bool is_built_in(std::string_view name) {
  try {
    built_in_layout(name);
    return true;
  } catch (const Error&) {
    return false;
  }
}

Layout built_in_layout(std::string_view name) {
  return assembled(resolve(name));
}

std::string own_layout_file(std::string_view name) {
  const Layout layout = built_in_layout(name);
  const auto parts = parts_of(layout.id);
  nlohmann::ordered_json file;
  file["layout"] = "my-machine";
  file["title"] = "My machine: " + layout.title;
  file["of"] = parts.front();
  file["traits"] = std::vector<std::string>(parts.begin() + 1, parts.end());
  file["fields"] = nlohmann::ordered_json::array();
  file["checks"] = nlohmann::ordered_json::array();
  return file.dump(2) + "\n";
}

// Outlines are never taken apart: at the end of a short command that would take as long as judging
// a dump.

const std::vector<LayoutClass>& built_in_classes() {
  static const auto& classes =
      *new std::vector<LayoutClass>(all_of(packed_classes(), unpack_class, Unpacked::outline));
  return classes;
}

const std::vector<Trait>& built_in_traits() {
  static const auto& traits =
      *new std::vector<Trait>(all_of(packed_traits(), unpack_trait, Unpacked::outline));
  return traits;
}

std::vector<LayoutClass> whole_classes() {
  return all_of(packed_classes(), unpack_class, Unpacked::whole);
}

std::vector<Trait> whole_traits() {
  return all_of(packed_traits(), unpack_trait, Unpacked::whole);
}

const Patterns& built_in_patterns(std::size_t image_size) {
  if (image_size == Image::small_size) {
    static const auto& small = *new Patterns(made_patterns(Image::small_size));
    return small;
  }
  static const auto& large = *new Patterns(made_patterns(Image::large_size));
  return large;
}

std::string_view embedded_text(std::string_view name) {
  const auto files = embedded_files();
  const auto found = std::find_if(files.begin(), files.end(),
                                  [&](const EmbeddedFile& file) { return file.name == name; });
  return found == files.end() ? std::string_view{} : found->text;
}

const std::vector<DriveType>& common_drive_types() {
  static const std::vector<DriveType> types = [] {
    std::vector<DriveType> read;
    const auto table = parse_json(embedded_text("drive-types"), "drive-types");
    for (const auto& entry : table["types"]) read.push_back(read_drive_type(entry));
    return read;
  }();
  return types;
}

}  // namespace rtcmend
