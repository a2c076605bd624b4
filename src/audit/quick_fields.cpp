#include "audit/quick_fields.h"

#include "judge/findings.h"
#include "judge/relations.h"

namespace rtcmend {

namespace {

/// Any bytes are legal in it, and tell nothing.
bool says_nothing(const Field& field) {
  const bool any_will_do = field.meaning == Meaning::bytes || field.meaning == Meaning::concealed;
  return any_will_do && !field.follows && std::holds_alternative<std::monostate>(field.preset);
}

/// A number any of whose codes is legal, and that follows nothing.
bool is_free_number(const Field& field) {
  return field.meaning == Meaning::number && !field.least && !field.most && !field.escape &&
         !field.follows && field.id != "century";
}

}  // namespace

std::optional<std::size_t> QuickFields::prepare(const Field& field, const Layout& layout) {
  if (says_nothing(field) || is_free_number(field)) return std::nullopt;
  const std::size_t number = pool_.number(field, layout);
  if (number == prepared_.size()) prepared_.push_back(prepared(pool_[number]));
  return number;
}

QuickFields::Prepared QuickFields::prepared(const FieldPool::Entry& entry) {
  constexpr unsigned room = 13;
  if (const auto copy = PlainCopy::of(*entry.field, *entry.layout))
    return {{}, copy, Recall<FindingSet>(1)};
  const auto bits = bits_that_decide(*entry.field, *entry.layout);
  return {bits, {}, Recall<FindingSet>(bits ? bits->width() : 64, room)};
}

// The findings' texts would want the words of a reading; their ids do not.

FindingSet QuickFields::ask_relation(const FieldPool::Entry& entry, const Image& image) {
  const FieldReading reading = read_value(*entry.field, image);
  FindingSet found;
  if (breaks_relation(reading, *entry.layout, image)) found.add(kind_of_broken(*entry.field));
  return found;
}

FindingSet QuickFields::ask(const FieldPool::Entry& entry, const Image& image) {
  FindingSet found = set_of(field_findings({read_value(*entry.field, image)}, {}, image));
  if (entry.field->follows) found |= ask_relation(entry, image);
  return found;
}

FindingSet QuickFields::operator()(std::size_t number, const Image& image) {
  const FieldPool::Entry& entry = pool_[number];
  Prepared& field = prepared_[number];
  if (field.copy)
    return field.recall(std::uint64_t{field.copy->is_true(image)},
                        [&] { return ask_relation(entry, image); });
  if (!field.bits) return ask(entry, image);
  return field.recall(field.bits->key(image), [&] { return ask(entry, image); });
}

}  // namespace rtcmend
