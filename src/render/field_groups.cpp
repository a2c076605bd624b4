#include "render/field_groups.h"

#include <algorithm>

namespace rtcmend {

namespace {

constexpr std::size_t few = 2;  // flags that are read as fast one by one

bool is_flag(const FieldReading& reading) {
  return reading.field->meaning == Meaning::flag;
}

bool says_no(const FieldReading& reading) {
  return reading.known && reading.in_use && reading.value == Value{false};
}

/// Sets the flags apart where all of them say no.
void fold_flags(FieldGroup& group) {
  const auto flags = std::stable_partition(group.shown.begin(), group.shown.end(),
                                           [](const FieldReading& one) { return !is_flag(one); });
  group.all_no.assign(flags, group.shown.end());
  group.shown.erase(flags, group.shown.end());
}

bool can_fold(const FieldGroup& group) {
  std::size_t flags = 0;
  for (const FieldReading& reading : group.shown) {
    if (!is_flag(reading)) continue;
    if (!says_no(reading)) return false;
    ++flags;
  }
  return flags > few;
}

}  // namespace

bool comes_first(const FieldGroup& group) {
  return group.name == "drives" || group.name == "memory";
}

std::vector<FieldGroup> field_groups(const std::vector<FieldReading>& fields) {
  std::vector<FieldGroup> groups;
  for (const FieldReading& reading : fields) {
    auto group = std::find_if(groups.begin(), groups.end(), [&](const FieldGroup& one) {
      return one.name == reading.field->group;
    });
    if (group == groups.end()) {
      groups.push_back({reading.field->group, {}, {}});
      group = groups.end() - 1;
    }
    group->shown.push_back(reading);
  }
  for (FieldGroup& group : groups)
    if (can_fold(group)) fold_flags(group);
  std::stable_partition(groups.begin(), groups.end(), comes_first);
  return groups;
}

}  // namespace rtcmend
