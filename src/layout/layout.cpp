#include "layout/layout.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "layout/codec.h"

namespace rtcmend {

const Field* Layout::field(std::string_view wanted) const {
  const auto found = std::find_if(fields.begin(), fields.end(),
                                  [&](const Field& field) { return field.id == wanted; });
  return found == fields.end() ? nullptr : &*found;
}

const Field& Layout::need_field(std::string_view wanted) const {
  if (const Field* found = field(wanted)) return *found;
  std::vector<std::string> names;
  for (const Field& candidate : fields) names.push_back(candidate.id);
  const auto near = nearest(wanted, names);
  refuse(id, fmt::format("it has no field \"{}\"", printable(wanted)),
         near.empty()
         ? [&]() -> Advice { return {{"See its fields", Act{Act::Kind::list, "fields", id}}}; }()
         : Advice("did you mean " + join(near, " or ") + "?"));
}

namespace {

bool covers(const Check& check, Address at) {
  return std::any_of(check.over.begin(), check.over.end(),
                     [&](const Covered& covered) { return covered.range.contains(at); });
}

bool stores(const Check& check, Address at) {
  const Addresses stored = stored_addresses(check);
  return std::find(stored.begin(), stored.end(), at) != stored.end();
}

}  // namespace

std::vector<const Field*> Layout::fields_at(Address at) const {
  std::vector<const Field*> touching;
  for (const Field& field : fields) {
    const Addresses bytes = addresses(field);
    if (std::binary_search(bytes.begin(), bytes.end(), at)) touching.push_back(&field);
  }
  return touching;
}

bool Layout::is_private(Address at) const {
  const std::vector<const Field*> touching = fields_at(at);
  return std::any_of(touching.begin(), touching.end(),
                     [](const Field* field) { return field->meaning == Meaning::concealed; });
}

std::vector<const Check*> Layout::checks_over(Address at) const {
  std::vector<const Check*> covering;
  for (const Check& check : checks)
    if (covers(check, at)) covering.push_back(&check);
  return covering;
}

std::vector<const Check*> Layout::checks_at(Address at) const {
  std::vector<const Check*> storing;
  for (const Check& check : checks)
    if (stores(check, at)) storing.push_back(&check);
  return storing;
}

std::size_t least_size(const Layout& layout) {
  Address last = 0;
  const auto look = [&](Address at) { last = std::max(last, at); };
  for (const Field& field : layout.fields) {
    for (const BitSlice& slice : field.bits) look(slice.at);
    for (const UsedWhile& condition : field.when) look(condition.bits.at);
    if (field.escape) look(field.escape->at);
  }
  for (const Check& check : layout.checks) {
    for (const Covered& covered : check.over) {
      look(covered.range.last);
      if (covered.when) look(covered.when->at);
    }
    if (check.when) look(check.when->at);
    for (const Address at : stored_addresses(check)) look(at);
  }
  return last < Image::small_size ? Image::small_size : Image::large_size;
}

bool is_of_a_pc(const Layout& layout) {
  const bool of_pcs = !layout.of.empty() && layout.of != "chip";
  return of_pcs || layout.field("century") != nullptr;
}

std::optional<int> century_in(const Layout& layout, const Image& image) {
  const Field* field = layout.field("century");
  if (field == nullptr) return std::nullopt;
  const FieldReading reading = read_value(*field, image);
  const auto* century = std::get_if<std::int64_t>(&reading.value);
  // The chips count through 2099 and PCs begin in 1980 (DS12885).
  if (century == nullptr || (*century != 19 && *century != 20)) return std::nullopt;
  return static_cast<int>(*century);
}

}  // namespace rtcmend
