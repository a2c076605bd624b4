#include "audit/plain_copy.h"

#include <algorithm>

namespace rtcmend {

namespace {

bool is_whole_number(const Field& field) {
  return field.meaning == Meaning::number && !field.escape && field.when.empty() &&
         field.bits.size() <= DecidingBits::most_bytes &&
         std::all_of(field.bits.begin(), field.bits.end(),
                     [](const BitSlice& slice) { return slice.mask() == 0xFF; });
}

/// Where a number's bytes stand, in its own order.
DecidingBits bytes_of(const Field& field) {
  Addresses at;
  for (const BitSlice& slice : field.bits) at.push_back(slice.at);
  return DecidingBits(at);
}

}  // namespace

PlainCopy::PlainCopy(const Field& field, const Field& original)
    : own_(bytes_of(field)), original_(bytes_of(original)) {}

std::optional<PlainCopy> PlainCopy::of(const Field& field, const Layout& layout) {
  if (!field.follows || field.follows->how != Follows::How::same) return std::nullopt;
  const Field& original = layout.need_field(field.follows->of.front());
  const bool alike = is_whole_number(field) && is_whole_number(original) &&
                     field.bits.size() == original.bits.size() && field.scale == original.scale &&
                     field.offset == original.offset && !field.least && !field.most;
  if (!alike) return std::nullopt;
  return PlainCopy(field, original);
}

}  // namespace rtcmend
