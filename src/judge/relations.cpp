#include "judge/relations.h"

#include <algorithm>

#include "layout/codec.h"

namespace rtcmend {

namespace {

/// How the fields that a follower looks at read; nothing when one of them cannot be used.
std::optional<std::vector<FieldReading>> read_leaders(const Follows& follows, const Layout& layout,
                                                      const Image& image) {
  std::vector<FieldReading> leaders;
  for (const std::string& id : follows.of) {
    const Field* field = layout.field(id);
    if (field == nullptr) return std::nullopt;
    leaders.push_back(read_value(*field, image));
    const FieldReading& reading = leaders.back();
    if (!reading.known || !reading.in_use) return std::nullopt;
    if (std::holds_alternative<std::monostate>(reading.value)) return std::nullopt;
  }
  return leaders;
}

}  // namespace

std::optional<Value> expected_value(const Field& follower, const Layout& layout,
                                    const Image& image) {
  if (!follower.follows) return std::nullopt;
  const auto leaders = read_leaders(*follower.follows, layout, image);
  if (!leaders || leaders->empty()) return std::nullopt;
  const auto present = std::count_if(leaders->begin(), leaders->end(),
                                     [](const FieldReading& leader) { return leader.raw != 0; });
  switch (follower.follows->how) {
    case Follows::How::same:
      return leaders->front().value;
    case Follows::How::any:
      return present > 0;
    case Follows::How::count:
      return std::max<std::int64_t>(present, follower.follows->least);
  }
  return std::nullopt;
}

}  // namespace rtcmend
