#include "judge/recall.h"

namespace rtcmend {

namespace {

void add_places(const Field& field, Addresses& all) {
  const Addresses own = addresses(field);
  all.insert(all.end(), own.begin(), own.end());
  if (field.when) all.push_back(field.when->at);
}

}  // namespace

std::optional<RestingPlaces> places_of_field(const Field& field, const Layout& layout) {
  Addresses all;
  add_places(field, all);
  if (field.follows)
    for (const std::string& id : field.follows->of)
      if (const Field* leader = layout.field(id)) add_places(*leader, all);
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  if (all.size() > RestingPlaces::most) return std::nullopt;
  return RestingPlaces(all);
}

}  // namespace rtcmend
