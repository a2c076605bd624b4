#include "deliver/delivery.h"

namespace rtcmend {

namespace {

constexpr std::size_t ram_bytes = Image::small_size - Image::ram_start;

/// 50 RAM bytes, none of them short or alike: the most to type.
Parcel hardest_parcel() {
  Parcel parcel;
  parcel.layout = "at";
  parcel.title = "AT class, 64 bytes";
  parcel.checks.push_back({});
  parcel.checks[0].over = {{{0x10, 0x2D}, std::nullopt}};
  parcel.checks[0].stored_at = 0x2E;
  parcel.century = Address{0x32};
  for (Address at = Image::ram_start; at < Image::small_size; ++at)
    parcel.image.set(at, static_cast<std::uint8_t>(0x80 + at));
  return parcel;
}

/// What no text for a way could do without, for 50 bytes.
struct Least {
  std::size_t keystrokes = 0;
  std::string because;
};

Least least(Way way) {
  switch (way) {
    case Way::debugger_script:
      return {150, "two hex digits and a blank a byte, for the data alone"};
    case Way::basic_listing:
      return {100, "two hex digits a byte, for the data alone"};
    case Way::keyboard_program:
      // 50 * 8 bits / log2(95) = 60.9
      return {61, "400 bits in keys of 95 characters, for the data alone"};
    case Way::boot_floppy:
    case Way::dos_program:
      break;
  }
  return {0, "nothing is typed"};
}

}  // namespace

std::vector<WayFigures> way_figures() {
  std::vector<WayFigures> all;
  for (const Way way : all_ways()) {
    const Delivery delivery = deliver(hardest_parcel(), way);
    const Least limit = least(way);
    all.push_back(
        {way, delivery.content.size(), delivery.keystrokes, limit.keystrokes, limit.because});
  }
  return all;
}

double keystrokes_per_byte(const WayFigures& way) {
  return static_cast<double>(way.keystrokes) / static_cast<double>(ram_bytes);
}

}  // namespace rtcmend
