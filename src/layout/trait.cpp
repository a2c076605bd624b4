#include "layout/trait.h"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <iterator>

#include "base/error.h"
#include "base/text.h"

namespace rtcmend {

namespace {

using Bits = std::array<std::uint8_t, Image::large_size>;

/// The bits that a trait gives a meaning to.
Bits claimed(const Layout& part) {
  Bits bits{};
  for (const Field& field : part.fields) {
    for (const BitSlice& slice : field.bits) bits[slice.at] |= slice.mask();
    if (field.escape) bits[field.escape->at] = 0xFF;
  }
  for (const Check& check : part.checks)
    for (const Address at : stored_addresses(check)) bits[at] = 0xFF;
  return bits;
}

bool names(const std::vector<std::string>& list, const std::string& id) {
  return std::find(list.begin(), list.end(), id) != list.end();
}

std::vector<std::string> all_names(const Layout& part) {
  std::vector<std::string> all;
  for (const Field& field : part.fields) all.push_back(field.id);
  for (const Check& check : part.checks) all.push_back(check.id);
  return all;
}

void append(std::vector<std::string>& lines, const std::vector<std::string>& more) {
  for (const std::string& line : more)
    if (!names(lines, line)) lines.push_back(line);
}

void add(const Trait& trait, Layout& layout) {
  const auto replaced = [&](const auto& entry) { return names(trait.replaces, entry.id); };
  if (!trait.replaces.empty()) {
    std::erase_if(layout.fields, replaced);
    std::erase_if(layout.checks, replaced);
  }
  const Layout& part = trait.part;
  layout.fields.insert(layout.fields.end(), part.fields.begin(), part.fields.end());
  layout.checks.insert(layout.checks.end(), part.checks.begin(), part.checks.end());
  append(layout.sources, part.sources);
  append(layout.notes, part.notes);
  append(layout.after_composing, part.after_composing);
  append(layout.when_writing, part.when_writing);
  if (!part.drive_types.empty()) layout.drive_types = part.drive_types;
  layout.id += "+" + trait.id;
  if (!part.title.empty()) layout.title += ", " + part.title;
}

/// A copy whose lists need not grow: this is done for every trait at the start of short commands.
Layout with_room_for(const Layout& core, const std::vector<const Trait*>& traits) {
  std::size_t fields = core.fields.size(), checks = core.checks.size();
  for (const Trait* trait : traits) {
    fields += trait->part.fields.size();
    checks += trait->part.checks.size();
  }
  Layout layout;
  layout.id = core.id;
  layout.title = core.title;
  layout.of = core.of;
  layout.size = core.size;
  layout.sources = core.sources;
  layout.notes = core.notes;
  layout.after_composing = core.after_composing;
  layout.drive_types = core.drive_types;
  layout.fields.reserve(fields);
  layout.fields.insert(layout.fields.end(), core.fields.begin(), core.fields.end());
  layout.checks.reserve(checks);
  layout.checks.insert(layout.checks.end(), core.checks.begin(), core.checks.end());
  return layout;
}

}  // namespace

std::string why_not_together(const Trait& a, const Trait& b) {
  if (a.family == b.family)
    return fmt::format("{} and {} are two answers to one question ({})", a.id, b.id, a.family);
  if (names(a.not_with, b.id) || names(b.not_with, a.id))
    return fmt::format("{} and {} belong to different firmware", a.id, b.id);
  const Bits of_a = claimed(a.part), of_b = claimed(b.part);
  for (std::size_t at = 0; at < of_a.size(); ++at)
    if ((of_a[at] & of_b[at]) != 0)
      return fmt::format("{} and {} both have a meaning for {}", a.id, b.id,
                         hex_prose(static_cast<std::uint8_t>(at)));
  const std::vector<std::string> theirs = all_names(b.part);
  for (const std::string& id : all_names(a.part))
    if (names(theirs, id)) return fmt::format("{} and {} both have \"{}\"", a.id, b.id, id);
  return {};
}

Layout assemble(const LayoutClass& layout_class, const std::vector<const Trait*>& traits) {
  const std::vector<std::string>& families = layout_class.families;
  std::vector<const Trait*> ordered = traits;
  const auto place = [&](const Trait* trait) {
    return std::find(families.begin(), families.end(), trait->family) - families.begin();
  };
  std::stable_sort(ordered.begin(), ordered.end(),
                   [&](const Trait* a, const Trait* b) { return place(a) < place(b); });
  Layout layout = with_room_for(layout_class.core, ordered);
  for (const Trait* trait : ordered) {
    if (!names(trait->of, layout_class.core.id))
      refuse(layout_class.core.id, fmt::format("this class has no trait {}: it belongs to {}",
                                               trait->id, join(trait->of, ", ")));
    for (const Trait* other : ordered) {
      if (other == trait) break;
      if (const std::string why = why_not_together(*other, *trait); !why.empty())
        refuse(layout_class.core.id, why, "leave one of the two out");
    }
    add(*trait, layout);
  }
  for (const Trait* trait : ordered)
    layout.size = std::max({layout.size, trait->part.size, least_size(trait->part)});
  layout.sealing = sealing_order(layout.checks, layout.id);
  return layout;
}

}  // namespace rtcmend
