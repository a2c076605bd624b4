#include "deliver/parcel.h"

#include <algorithm>
#include <array>

#include "layout/codec.h"
#include "layout/privacy.h"

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

constexpr Address shutdown_reason = 0x0F;

/// 00h where a restart looks for the reason of the shutdown: 04h to 0Ch, in the image or left over
/// in the chip, send it somewhere else than into the self-test (RBIL61 C0006). No check of the
/// library covers the byte; under one that does it stays as it is.
void reset_shutdown_reason(Image& image, const std::vector<Check>& checks) {
  for (const Check& check : checks) {
    const Addresses covered = covered_addresses(check);
    if (std::find(covered.begin(), covered.end(), shutdown_reason) != covered.end()) return;
  }
  image.set(shutdown_reason, 0x00);
}

/// Bytes of fields that the firmware changes at each start, outside every check.
Addresses unsteady_bytes(const Layout& layout) {
  Addresses all;
  for (const Field& field : layout.fields)
    if (field.is_volatile)
      for (const Address at : addresses(field))
        if (at >= Image::ram_start && layout.checks_over(at).empty() &&
            layout.checks_at(at).empty() && std::find(all.begin(), all.end(), at) == all.end())
          all.push_back(at);
  std::sort(all.begin(), all.end());
  return all;
}

std::optional<Address> century_place(const Layout& layout) {
  const Field* century = layout.field("century");
  if (!century) return std::nullopt;
  return century->bits.front().at;
}

}  // namespace

Parcel parcel_of(const Image& image, const Layout& layout, Delivered what) {
  Parcel parcel;
  parcel.image =
      what == Delivered::all ? image : image.with_size(std::min(image.size(), layout.size));
  parcel.layout = layout.id;
  parcel.title = layout.title;
  parcel.fields = shown_fields(layout, image);
  parcel.checks = layout.checks;
  parcel.hidden = private_bytes(layout);
  reset_shutdown_reason(parcel.image, layout.checks);
  parcel.of_a_pc = is_of_a_pc(layout);
  parcel.century = century_place(layout);
  parcel.unsteady = unsteady_bytes(layout);
  parcel.warnings = layout.when_writing;
  return parcel;
}

}  // namespace rtcmend
