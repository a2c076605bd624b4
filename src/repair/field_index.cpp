#include "repair/field_index.h"

#include "judge/relations.h"

namespace rtcmend {

FieldIndex::FieldIndex(const Layout& layout) {
  places_.reserve(layout.fields.size());
  for (const Field& field : layout.fields) {
    std::bitset<Image::large_size>& places = places_.emplace_back();
    for (const BitSlice& slice : resting_bits(field, layout)) places.set(slice.at);
  }
}

std::vector<std::size_t> FieldIndex::resting_on(const std::vector<Patch>& patches) const {
  std::bitset<Image::large_size> changed;
  for (const Patch& patch : patches) changed.set(patch.at);
  std::vector<std::size_t> fields;
  for (std::size_t i = 0; i < places_.size(); ++i)
    if ((places_[i] & changed).any()) fields.push_back(i);
  return fields;
}

}  // namespace rtcmend
