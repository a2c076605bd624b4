#include "judge/quick_evidence.h"

#include <algorithm>

#include "judge/evidence.h"
#include "judge/quick_layout.h"

namespace rtcmend {

namespace {

/// Whether what a field follows is the same in both layouts.
bool same_leaders(const Field& field, const Layout& a, const Layout& b) {
  if (!field.follows) return true;
  return std::all_of(field.follows->of.begin(), field.follows->of.end(),
                     [&](const std::string& id) { return a.need_field(id) == b.need_field(id); });
}

/// A check that holds may prove a copy, and then a copy that differs weighs more.
bool is_copy(const Field& field) {
  return field.follows && field.follows->how == Follows::How::same;
}

constexpr std::size_t most_checks = 8;  // one bit each below the bytes of a key

}  // namespace

QuickEvidence::QuickEvidence(const std::vector<const Layout*>& layouts) {
  for (std::size_t i = 0; i < layouts.size(); ++i) {
    std::vector<std::size_t>& own = of_layout_.emplace_back();
    for (const Field& field : layouts[i]->fields)
      if (!says_nothing(field)) own.push_back(index_of(field, *layouts[i], i));
  }
}

std::size_t QuickEvidence::index_of(const Field& field, const Layout& layout,
                                    std::size_t layout_index) {
  const bool asks_checks = is_copy(field);
  const auto [first, last] = by_id_.equal_range(field.id);
  for (auto known = first; known != last && !asks_checks; ++known) {
    const Weighed& other = fields_[known->second];
    if (*other.field == field && same_leaders(field, layout, *other.layout)) return known->second;
  }
  auto places = places_of_field(field, layout);
  if (asks_checks && places &&
      (places->count() == RestingPlaces::most || layout.checks.size() > most_checks))
    places.reset();
  const std::size_t bits = places && !asks_checks ? places->count() * 8 : 64;
  constexpr unsigned room = 13;
  fields_.push_back(
      {&field, &layout, layout_index, places, asks_checks, Recall<double>(bits, room)});
  by_id_.emplace(field.id, fields_.size() - 1);
  return fields_.size() - 1;
}

std::uint64_t QuickEvidence::key_of(const Weighed& one, const Image& image,
                                    const ChecksOf& checks_of) {
  const std::uint64_t bytes = one.places->key(image);
  if (!one.asks_checks) return bytes;
  std::uint64_t holding = 0;
  for (const CheckResult& result : checks_of(one.layout_index))
    holding = holding << 1 | std::uint64_t{result.ok()};
  return bytes << most_checks | holding;
}

void QuickEvidence::look_at(const Image& image, const ChecksOf& checks_of) {
  for (Weighed& one : fields_) {
    const auto weigh = [&] { return bits_of_field(*one.field, *one.layout, image); };
    one.bits = one.places ? one.recall(key_of(one, image, checks_of), weigh) : weigh();
  }
}

double QuickEvidence::bits(std::size_t layout) const {
  double all = 0;
  for (const std::size_t index : of_layout_[layout]) all += fields_[index].bits;
  return all;
}

}  // namespace rtcmend
