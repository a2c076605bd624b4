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
