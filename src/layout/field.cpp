#include "layout/field.h"

#include <algorithm>

#include "base/text.h"

namespace rtcmend {

Addresses addresses(const Field& field) {
  Addresses all;
  for (const BitSlice& slice : field.bits) all.push_back(slice.at);
  if (field.escape) all.push_back(field.escape->at);
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

bool is_long(const Field& field) {
  return field.meaning == Meaning::bytes || field.meaning == Meaning::text ||
         field.meaning == Meaning::concealed;
}

bool is_in_use(const Field& field, const Image& image) {
  return std::all_of(field.when.begin(), field.when.end(), [&](const UsedWhile& condition) {
    return condition.holds(image).value_or(true);
  });
}

unsigned bit_count(const Field& field) {
  unsigned count = 0;
  for (const BitSlice& slice : field.bits) count += slice.width();
  return count;
}

std::string describe_follows(const Field& field) {
  if (!field.follows) return {};
  return "follows " + join(field.follows->of, ", ");
}

}  // namespace rtcmend
