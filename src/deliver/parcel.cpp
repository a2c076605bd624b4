#include "deliver/parcel.h"

#include <array>

#include "layout/codec.h"

namespace rtcmend {

namespace {

/// What the old machine shows first: enough for a person to see that it is the right image.
std::vector<std::string> shown_fields(const Layout& layout, const Image& image) {
  constexpr std::array wanted{"floppy_a", "floppy_b",    "disk_0_type",     "disk_1_type",
                              "display",  "coprocessor", "base_memory_kib", "extended_memory_kib"};
  std::vector<std::string> lines;
  for (const char* id : wanted) {
    const Field* field = layout.field(id);
    if (!field) continue;
    const FieldReading reading = read_field(*field, image);
    if (reading.known && reading.in_use) lines.push_back(field->label + ": " + reading.text);
  }
  return lines;
}

/// A shutdown reason that would send the restart somewhere else than into the self-test: 04h to 0Ch
/// (RBIL61 C0006).
Addresses not_to_write(const Layout& layout, const Image& image) {
  const Field* reason = layout.field("shutdown_reason");
  if (!reason) return {};
  const Address at = reason->bits.front().at;
  const auto byte = image.at(at);
  if (!byte || *byte < 0x04 || *byte > 0x0C) return {};
  return {at};
}

std::optional<Address> century_place(const Layout& layout) {
  const Field* century = layout.field("century");
  if (!century) return std::nullopt;
  return century->bits.front().at;
}

}  // namespace

Parcel parcel_of(const Image& image, const Layout& layout) {
  Parcel parcel;
  parcel.image = image;
  parcel.layout = layout.id;
  parcel.title = layout.title;
  parcel.fields = shown_fields(layout, image);
  parcel.checks = layout.checks;
  parcel.leave_alone = not_to_write(layout, image);
  parcel.century = century_place(layout);
  return parcel;
}

}  // namespace rtcmend
