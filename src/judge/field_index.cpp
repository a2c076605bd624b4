#include "judge/field_index.h"

#include <algorithm>

#include "judge/relations.h"

namespace rtcmend {

FieldIndex::FieldIndex(const Layout& layout) {
  places_.reserve(layout.fields.size());
  for (const Field& field : layout.fields) places_.push_back(resting_places(field, layout));
}

std::vector<std::size_t> FieldIndex::resting_on(const std::vector<Patch>& patches) const {
  std::vector<std::size_t> fields;
  for (std::size_t i = 0; i < places_.size(); ++i)
    if (std::any_of(patches.begin(), patches.end(),
                    [&](const Patch& patch) { return places_[i][patch.at]; }))
      fields.push_back(i);
  return fields;
}

}  // namespace rtcmend
