#include "judge/relations.h"

#include <algorithm>

namespace rtcmend {

namespace {

/// How the fields that a follower looks at read; nothing when one of them cannot be used.
std::optional<std::vector<FieldReading>> read_leaders(const Follows& follows, const Layout& layout,
                                                      const Image& image) {
  std::vector<FieldReading> leaders;
  for (const std::string& id : follows.of) {
    leaders.push_back(read_value(layout.need_field(id), image));
    const FieldReading& reading = leaders.back();
    if (!reading.known || !reading.in_use) return std::nullopt;
    if (std::holds_alternative<std::monostate>(reading.value)) return std::nullopt;
  }
  return leaders;
}

/// Whether the leader may have stopped short of what the follower says.
bool goes_on(const FieldReading& follower, const Value& expected) {
  const auto& up_to = follower.field->follows->up_to;
  const auto* own = std::get_if<std::int64_t>(&follower.value);
  const auto* leader = std::get_if<std::int64_t>(&expected);
  return up_to && own != nullptr && leader != nullptr && *leader >= *up_to && *own > *leader;
}

void add_bits(const Field& field, std::vector<BitSlice>& bits) {
  bits.insert(bits.end(), field.bits.begin(), field.bits.end());
  if (field.escape) bits.push_back({field.escape->at});
  for (const UsedWhile& condition : field.when) bits.push_back(condition.bits);
}

}  // namespace

bool covers(const Check& check, const Field& field) {
  const Addresses own = addresses(field);
  return std::all_of(own.begin(), own.end(), [&](Address at) {
    return std::any_of(check.over.begin(), check.over.end(),
                       [at](const Covered& covered) { return covered.range.contains(at); });
  });
}

Value followed_value(const Field& follower, const Value& leader) {
  const auto* number = std::get_if<std::int64_t>(&leader);
  if (number == nullptr || follower.meaning != Meaning::number || follower.scale == 1)
    return leader;
  return *number - (*number - follower.offset) % follower.scale;
}

std::optional<Value> expected_value(const Field& follower, const Layout& layout,
                                    const Image& image) {
  if (!follower.follows) return std::nullopt;
  const auto leaders = read_leaders(*follower.follows, layout, image);
  if (!leaders) return std::nullopt;
  const auto present = std::count_if(leaders->begin(), leaders->end(),
                                     [](const FieldReading& leader) { return leader.raw != 0; });
  switch (follower.follows->how) {
    case Follows::How::same:
      return followed_value(follower, leaders->front().value);
    case Follows::How::any:
      return present > 0;
    case Follows::How::count:
      break;
  }
  return std::max<std::int64_t>(present, follower.follows->least);
}

bool breaks_relation(const FieldReading& reading, const Layout& layout, const Image& image) {
  if (!reading.known || !reading.in_use) return false;
  const auto expected = expected_value(*reading.field, layout, image);
  return expected && reading.value != *expected && !goes_on(reading, *expected);
}

std::vector<std::size_t> checks_proving(const Field& copy, const Layout& layout) {
  if (!copy.follows || copy.follows->how != Follows::How::same) return {};
  const Field& original = layout.need_field(copy.follows->of.front());
  std::vector<std::size_t> proving;
  for (std::size_t i = 0; i < layout.checks.size(); ++i)
    if (covers(layout.checks[i], copy) && covers(layout.checks[i], original)) proving.push_back(i);
  return proving;
}

std::vector<BitSlice> resting_bits(const Field& field, const Layout& layout) {
  std::vector<BitSlice> bits;
  add_bits(field, bits);
  if (field.follows)
    for (const std::string& id : field.follows->of) add_bits(layout.need_field(id), bits);
  return bits;
}

}  // namespace rtcmend
