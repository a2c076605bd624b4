#include "layout/same_layout.h"

#include <algorithm>

namespace rtcmend {

namespace {

bool same_field(const Field& a, const Field& b) {
  return a.id == b.id && a.meaning == b.meaning && a.bits == b.bits;
}

}  // namespace

bool same_check(const Check& a, const Check& b) {
  return a.stored_at == b.stored_at && a.over == b.over && a.order == b.order && a.rule == b.rule &&
         a.when == b.when;
}

bool includes_fields(const Layout& special, const Layout& plain) {
  const auto has_field = [&](const Field& wanted) {
    const Field* found = special.field(wanted.id);
    return found != nullptr && same_field(*found, wanted);
  };
  return std::ranges::all_of(plain.fields, has_field);
}

bool refines(const Layout& special, const Layout& plain) {
  return includes_fields(special, plain) && special.fields.size() > plain.fields.size() &&
         std::ranges::is_permutation(special.checks, plain.checks, same_check);
}

}  // namespace rtcmend
