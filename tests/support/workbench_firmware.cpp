#include "support/invented_firmware.h"

namespace rtcmend::test {

namespace {

std::vector<BitAt> bits_of(Address at, int high, int low) {
  std::vector<BitAt> bits;
  for (int bit = high; bit >= low; --bit) bits.push_back({at, static_cast<std::uint8_t>(bit)});
  return bits;
}

std::vector<BitAt> both(std::vector<BitAt> a, const std::vector<BitAt>& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

}  // namespace

InventedFirmware workbench_firmware() {
  InventedFirmware firmware;
  firmware.size = Image::small_size;
  firmware.blank.assign(firmware.size, 0);
  firmware.blank[0x1A] = 0x5A;  // something that never changes
  firmware.knobs = {
      {"floppy_b", {"none", "360K", "720K", "1.44M"}, {0, 5, 6, 3}, bits_of(0x14, 6, 4), {}},
      {"boot_from", {"disk", "floppy"}, {1, 0}, bits_of(0x14, 0, 0), {}},
      {"memory",
       {"640 KiB", "0 KiB", "16320 KiB", "2752 KiB"},
       {10, 0, 255, 43},
       bits_of(0x1C, 7, 0),
       {}},
      {"start_delay", {"5", "0", "99", "60"}, {0x05, 0x00, 0x99, 0x60}, bits_of(0x22, 7, 0), {}},
      {"display",
       {"colour", "mono", "none"},
       {0, 3, 1},
       both(bits_of(0x17, 2, 2), bits_of(0x2B, 7, 7)),
       {}},
      {"cursor", {"line", "block"}, {0, 1}, bits_of(0x25, 3, 3), {}},
  };
  firmware.drags = {{4, 2, 5, 1}};  // without a display the cursor is a block
  firmware.counters = {0x30};
  firmware.guard = {Guard::Kind::crc_16, 0xFFFF, 0x1021, {0x10, 0x2F}, 0x3E};
  return firmware;
}

}  // namespace rtcmend::test
