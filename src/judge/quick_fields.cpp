#include "judge/quick_fields.h"

#include <algorithm>

#include "judge/findings.h"
#include "judge/relations.h"

namespace rtcmend {

namespace {

/// A number any of whose codes is legal, and that follows nothing.
bool is_free_number(const Field& field) {
  return field.meaning == Meaning::number && !field.least && !field.most && !field.escape &&
         !field.follows && field.id != "century";
}

bool is_whole_number(const Field& field) {
  return field.meaning == Meaning::number && !field.escape && !field.when &&
         field.bits.size() <= RestingPlaces::most &&
         std::all_of(field.bits.begin(), field.bits.end(),
                     [](const BitSlice& slice) { return slice.mask() == 0xFF; });
}

/// The field that this one is a plain copy of, null when it is none.
const Field* original_of(const Field& field, const Layout& layout) {
  if (!field.follows || field.follows->how != Follows::How::same) return nullptr;
  const Field& original = layout.need_field(field.follows->of.front());
  const bool alike = is_whole_number(field) && is_whole_number(original) &&
                     field.bits.size() == original.bits.size() && field.scale == original.scale &&
                     field.offset == original.offset && !field.least && !field.most;
  return alike ? &original : nullptr;
}

/// Where a number's bytes stand, in its own order.
RestingPlaces bytes_of(const Field& field) {
  Addresses at;
  for (const BitSlice& slice : field.bits) at.push_back(slice.at);
  return RestingPlaces(at);
}

}  // namespace

bool says_nothing(const Field& field) {
  const bool any_will_do = field.meaning == Meaning::bytes || field.meaning == Meaning::concealed;
  return any_will_do && !field.follows && std::holds_alternative<std::monostate>(field.preset);
}

std::optional<std::size_t> QuickFields::prepare(const Field& field, const Layout& layout) {
  if (says_nothing(field) || is_free_number(field)) return std::nullopt;
  const std::size_t number = pool_.number(field, layout);
  if (number == prepared_.size()) prepared_.push_back(prepared(pool_[number]));
  return number;
}

QuickFields::Prepared QuickFields::prepared(const FieldPool::Entry& entry) {
  constexpr unsigned room = 13;
  const Field& field = *entry.field;
  if (const Field* original = original_of(field, *entry.layout))
    return {{}, Copy{bytes_of(field), bytes_of(*original)}, Recall<FindingSet>(1)};
  const auto places = places_of_field(field, *entry.layout);
  return {places, {}, Recall<FindingSet>(places ? places->count() * 8 : 64, room)};
}

// The findings' texts would want the words of a reading; their ids do not.

FindingSet QuickFields::ask_relation(const FieldPool::Entry& entry, const Image& image) {
  const FieldReading reading = read_value(*entry.field, image);
  if (!breaks_relation(reading, *entry.layout, image)) return {};
  if (!broken_relation_)
    broken_relation_ = names_.set_of(relation_findings({reading}, *entry.layout, image));
  return *broken_relation_;
}

FindingSet QuickFields::ask(const FieldPool::Entry& entry, const Image& image) {
  FindingSet found = names_.set_of(field_findings({read_value(*entry.field, image)}, image));
  if (entry.field->follows) found |= ask_relation(entry, image);
  return found;
}

FindingSet QuickFields::operator()(std::size_t number, const Image& image) {
  const FieldPool::Entry& entry = pool_[number];
  Prepared& field = prepared_[number];
  if (field.copy) {
    const bool same = field.copy->own.key(image) == field.copy->original.key(image);
    return field.recall(std::uint64_t{same}, [&] { return ask_relation(entry, image); });
  }
  if (!field.places) return ask(entry, image);
  return field.recall(field.places->key(image), [&] { return ask(entry, image); });
}

}  // namespace rtcmend
