#include "judge/recall.h"

#include "judge/relations.h"

namespace rtcmend {

std::optional<RestingPlaces> places_of_field(const Field& field, const Layout& layout) {
  const auto places = resting_places(field, layout);
  if (places.count() > RestingPlaces::most) return std::nullopt;
  Addresses all;
  for (std::size_t i = 0; i < places.size(); ++i)
    if (places[i]) all.push_back(static_cast<Address>(i));
  return RestingPlaces(all);
}

}  // namespace rtcmend
