#include "audit/field_pool.h"

#include <algorithm>

namespace rtcmend {

namespace {

bool same_leaders(const Field& field, const Layout& a, const Layout& b) {
  if (!field.follows) return true;
  return std::all_of(field.follows->of.begin(), field.follows->of.end(),
                     [&](const std::string& id) { return a.need_field(id) == b.need_field(id); });
}

}  // namespace

std::size_t FieldPool::number(const Field& field, const Layout& layout) {
  const auto [first, last] = by_id_.equal_range(field.id);
  for (auto known = first; known != last; ++known) {
    const Entry& other = entries_[known->second];
    if (*other.field == field && same_leaders(field, layout, *other.layout)) return known->second;
  }
  entries_.push_back({&field, &layout});
  by_id_.emplace(field.id, entries_.size() - 1);
  return entries_.size() - 1;
}

}  // namespace rtcmend
