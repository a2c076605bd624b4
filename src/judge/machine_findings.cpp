#include <fmt/format.h>
#include <initializer_list>
#include <set>

#include "judge/findings.h"
#include "judge/relations.h"

namespace rtcmend {

namespace {

// Memory chips come to banks of 64 KiB or more, and no machine with such a clock chip has less than
// two of them (common practice, no source).
constexpr std::int64_t bank_kib = 64, least_base_kib = 128;
constexpr const char* practice = "common practice, no source";

/// The number of a field that is there, known, in use and legal; nothing otherwise.
std::optional<std::int64_t> number_of(const Field* field, const Image& image) {
  if (field == nullptr) return std::nullopt;
  const FieldReading reading = read_value(*field, image);
  const auto* number = std::get_if<std::int64_t>(&reading.value);
  if (!reading.known || !reading.in_use || !reading.legal || number == nullptr) return std::nullopt;
  return *number;
}

bool is_off(const Field* field, const Image& image) {
  if (field == nullptr) return false;
  const FieldReading reading = read_value(*field, image);
  return reading.known && reading.in_use && reading.value == Value{false};
}

Advice set_what_is_fitted(const Field& field) {
  return {{"Set what is fitted", Act{Act::Kind::set_field, field.id, {}}}};
}

}  // namespace

std::vector<Addresses> machine_bytes(const Layout& layout) {
  const std::vector<std::vector<const char*>> fields_of_each = {
      {"base_memory_kib"}, {"extended_memory_kib"}, {"display_enabled", "keyboard_enabled"}};
  std::vector<Addresses> all;
  for (const auto& ids : fields_of_each) {
    std::set<Address> own;
    for (const char* id : ids)
      if (const Field* field = layout.field(id))
        for (const BitSlice& bits : resting_bits(*field, layout)) own.insert(bits.at);
    if (!own.empty()) all.emplace_back(own.begin(), own.end());
  }
  return all;
}

std::vector<Finding> machine_findings(const Layout& layout, const Image& image) {
  std::vector<Finding> findings;
  const Field* base = layout.field("base_memory_kib");
  if (const auto kib = number_of(base, image);
      kib && (*kib < least_base_kib || *kib % bank_kib != 0))
    findings.push_back({FindingKind::base_memory_odd, addresses(*base),
                        fmt::format("Base memory of {} KiB is what no machine has: banks come to "
                                    "{} KiB or more, in steps of {}.",
                                    *kib, least_base_kib, bank_kib),
                        set_what_is_fitted(*base), practice});
  const Field* extended = layout.field("extended_memory_kib");
  if (const auto kib = number_of(extended, image); kib && *kib > 0 && *kib < bank_kib)
    findings.push_back(
        {FindingKind::extended_memory_tiny, addresses(*extended),
         fmt::format("Extended memory of {} KiB is less than one block of {}.", *kib, bank_kib),
         set_what_is_fitted(*extended), practice});
  // The CRC class's own set-up leaves both off (measured on 7 of 7 images).
  const Field *display = layout.field("display_enabled"), *keys = layout.field("keyboard_enabled");
  if (layout.of == "at" && is_off(display, image) && is_off(keys, image))
    findings.push_back({FindingKind::display_keyboard_off,
                        addresses(*display),
                        "Neither the display nor the keyboard is enabled: nobody could use this "
                        "machine, or see what it says.",
                        {{"Enable the display", Act{Act::Kind::set_field, display->id, "yes"}},
                         {"Enable the keyboard", Act{Act::Kind::set_field, keys->id, "yes"}}},
                        practice});
  return findings;
}

}  // namespace rtcmend
