#include "layout/owners.h"

namespace rtcmend {

std::uint8_t bits_of(const Field& field, Address at) {
  if (field.escape && field.escape->at == at) return 0xFF;
  unsigned mask = 0;
  for (const BitSlice& slice : field.bits)
    if (slice.at == at) mask |= slice.mask();
  return static_cast<std::uint8_t>(mask);
}

std::vector<std::string> owners(const Layout& layout, Address at, std::uint8_t bits) {
  std::vector<std::string> ids;
  for (const Field* field : layout.fields_at(at))
    if ((bits_of(*field, at) & bits) != 0) ids.push_back(field->id);
  for (const Check* check : layout.checks_at(at)) ids.push_back(check->id);
  return ids;
}

}  // namespace rtcmend
