#include "discover/places.h"

#include <algorithm>

namespace rtcmend {

std::vector<Place> open_places(const DumpSet& evidence, const Question& question, unsigned width) {
  std::vector<Place> places;
  const unsigned bytes = width / 8;
  for (unsigned at = 0; at + bytes <= evidence.size(); ++at) {
    if (question.at && *question.at != at) continue;
    bool known = true, varies = false;
    for (unsigned i = at; i < at + bytes; ++i) {
      known = known && evidence.known[i];
      varies = varies || evidence.varies[i];
    }
    if (!known || (!varies && !question.at)) continue;
    places.push_back({static_cast<Address>(at), Order::high_first});
    if (bytes == 2) places.push_back({static_cast<Address>(at), Order::low_first});
  }
  return places;
}

bool stands_clear(const DumpSet& evidence, const Range& range, Address at, unsigned width) {
  if (evidence.covers(range, at)) return false;
  return width == 8 || !evidence.covers(range, static_cast<Address>(at + 1));
}

ChangeIndex::ChangeIndex(std::vector<Entry> entries) : entries_(std::move(entries)) {
  std::ranges::stable_sort(entries_, {}, &Entry::value);
  for (const Entry& entry : entries_)
    map_[entry.value >> 6] |= std::uint64_t{1} << (entry.value & 63U);
}

std::span<const ChangeIndex::Entry> ChangeIndex::find(std::uint16_t value) const {
  return {std::ranges::lower_bound(entries_, value, {}, &Entry::value),
          std::ranges::upper_bound(entries_, value, {}, &Entry::value)};
}

}  // namespace rtcmend
