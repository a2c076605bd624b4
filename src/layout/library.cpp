#include "layout/library.h"

#include <algorithm>
#include <deque>
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
  refuse("layout", fmt::format("the class {} has no trait \"{}\"", layout_class, printable(trait)),
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

bool fits(const Layout& layout, std::size_t image_size) {
  return std::max(layout.size, least_size(layout)) <= image_size;
}

/// Whether what the trait has can be read without what the class has.
bool stands_alone(const Trait& trait) {
  return trait.replaces.empty() && std::ranges::none_of(trait.part.fields, [](const Field& field) {
           return field.follows.has_value();
         });
}

/// Layouts that patterns point to, which never move.
using Shelved = std::deque<Layout>;

struct Patterns {
  Shelved made;
  std::vector<Pattern> all;
};

Pattern pattern_of(const LayoutClass& of, const Trait& trait, Shelved& made) {
  if (stands_alone(trait)) return {&of, &trait, &trait.part, 0, 0};
  const Layout& layout = made.emplace_back(assemble(of, {&trait}));
  return {&of, &trait, &layout, layout.fields.size() - trait.part.fields.size(),
          layout.checks.size() - trait.part.checks.size()};
}

Patterns made_patterns(std::size_t image_size) {
  Patterns patterns;
  for (const LayoutClass& of : built_in_classes()) {
    patterns.all.push_back({&of, nullptr, &of.core, 0, 0});
    for (const Trait& trait : built_in_traits())
      if (has_class(trait, of.core.id) && fits(trait.part, image_size))
        patterns.all.push_back(pattern_of(of, trait, patterns.made));
  }
  return patterns;
}

Layout checks_of(const LayoutClass& of, const Trait* trait) {
  LayoutClass bare;
  bare.core.id = of.core.id;
  bare.core.size = of.core.size;
  bare.core.checks = of.core.checks;
  bare.families = of.families;
  if (trait == nullptr) return bare.core;
  Trait own;
  own.id = trait->id;
  own.of = trait->of;
  own.family = trait->family;
  own.replaces = trait->replaces;
  own.part.checks = trait->part.checks;
  return assemble(bare, {&own});
}

std::vector<Layout> made_checks(std::size_t image_size) {
  std::vector<Layout> layouts;
  for (const LayoutClass& of : built_in_classes()) {
    layouts.push_back(checks_of(of, nullptr));
    for (const Trait& trait : built_in_traits())
      if (!trait.part.checks.empty() && has_class(trait, of.core.id) &&
          fits(trait.part, image_size))
        layouts.push_back(checks_of(of, &trait));
  }
  return layouts;
}

/// Something for chips of each size, made when it is first wanted.
template <typename Made, typename Make>
const Made& once_for(std::size_t image_size, const Make& make) {
  if (image_size == Image::small_size) {
    static const Made& small = *new Made(make(Image::small_size));
    return small;
  }
  static const Made& large = *new Made(make(Image::large_size));
  return large;
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

const std::vector<Pattern>& built_in_patterns(std::size_t image_size) {
  return once_for<Patterns>(image_size, made_patterns).all;
}

const std::vector<Layout>& built_in_checks(std::size_t image_size) {
  return once_for<std::vector<Layout>>(image_size, made_checks);
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
