#include "layout/kinship.h"

#include <algorithm>

namespace rtcmend {

namespace {

bool same_slice(const BitSlice& a, const BitSlice& b) {
  return a.at == b.at && a.high == b.high && a.low == b.low;
}

bool same_field(const Field& a, const Field& b) {
  return a.id == b.id && a.meaning == b.meaning && std::ranges::equal(a.bits, b.bits, same_slice);
}

bool same_stretch(const Covered& a, const Covered& b) {
  return a.range == b.range && a.when.has_value() == b.when.has_value();
}

bool same_check(const Check& a, const Check& b) {
  return describe(a) == describe(b) && a.stored_at == b.stored_at && a.order == b.order &&
         std::ranges::equal(a.over, b.over, same_stretch);
}

}  // namespace

bool includes_fields(const Layout& special, const Layout& plain) {
  const auto has_field = [&](const Field& wanted) {
    const Field* found = special.field(wanted.id);
    return found != nullptr && same_field(*found, wanted);
  };
  return special.size == plain.size && std::ranges::all_of(plain.fields, has_field);
}

bool refines(const Layout& special, const Layout& plain) {
  return includes_fields(special, plain) && special.fields.size() > plain.fields.size() &&
         std::ranges::is_permutation(special.checks, plain.checks, same_check);
}

}  // namespace rtcmend
