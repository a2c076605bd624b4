#include <catch2/catch.hpp>

#include "hand_images.h"

using namespace rtcmend;
using Ids = std::vector<std::string>;

namespace {

struct Entered {
  std::string cylinders, heads, precompensation, landing_zone, sectors;
  friend bool operator==(const Entered&, const Entered&) = default;
};

Entered disk(const Layout& layout, const Image& image, const std::string& prefix) {
  return {says(layout, prefix + "cylinders", image), says(layout, prefix + "heads", image),
          says(layout, prefix + "precompensation", image),
          says(layout, prefix + "landing_zone", image), says(layout, prefix + "sectors", image)};
}

// 03D1h cylinders, 5 heads, 012Ch precompensation, 03D1h landing zone, 11h sectors; and 0400h, 9,
// 0200h, 03FFh, 1Ah.
const Entered first{"977", "5", "300", "977", "17"}, second{"1024", "9", "512", "1023", "26"};

void holds_and_reseals(const Layout& layout, const Image& image) {
  CHECK(holding(layout, image).size() == layout.checks.size());
  CHECK(resealed(layout, image) == image);
}

}  // namespace

TEST_CASE("block A keeps eight bytes a disk at 1B and 24, with a control byte") {
  // RBIL61 CMOS 1Bh-2Ch; C0025. Sum of 10h-2Dh = 045Ah + 04h + 09h + 02h + 28h + FFh + 03h + 1Ah.
  const Layout layout = built_in_layout("at+disks-1b");
  const Image image = typed_in(64,
                               "00 00 "
                               "40 00 F0 00 0D 80 02 80 01 2F 00 D1 03 05 2C 01 "
                               "00 D1 03 11 00 04 09 00 02 28 FF 03 1A 00 05 AD "
                               "80 01 20 00");
  holds_and_reseals(layout, image);
  CHECK(disk(layout, image, "disk_0_") == first);
  CHECK(disk(layout, image, "disk_1_") == second);
  CHECK(says(layout, "disk_0_retries", image) == "on");
  CHECK(says(layout, "disk_1_many_heads", image) == "yes");
  CHECK(says(layout, "disk_1_defect_map", image) == "yes");
}

TEST_CASE("block B has no control byte") {
  // RBIL61 CMOS 1Bh-2Ah.
  const Layout layout = built_in_layout("at+disks-1b-short");
  const Image image = typed_in(64,
                               "00 00 "
                               "40 00 FF 00 0D 80 02 80 01 2F 2F D1 03 05 2C 01 "
                               "D1 03 11 00 04 09 00 02 FF 03 1A 00 00 00 05 C3 "
                               "80 01 20 00");
  holds_and_reseals(layout, image);
  CHECK(disk(layout, image, "disk_0_") == first);
  CHECK(disk(layout, image, "disk_1_") == second);
}

TEST_CASE("block C keeps the second disk outside the sum") {
  // RBIL61 CMOS 20h-27h, 35h-3Ch.
  const Layout layout = built_in_layout("at+disks-20");
  const Image image = typed_in(64,
                               "00 00 "
                               "40 00 F0 00 0D 80 02 80 01 27 00 00 00 00 00 00 "
                               "D1 03 05 2C 01 D1 03 11 00 00 00 00 00 00 04 52 "
                               "80 01 20 00 00 00 04 09 00 02 FF 03 1A");
  holds_and_reseals(layout, image);
  CHECK(disk(layout, image, "disk_0_") == first);
  CHECK(disk(layout, image, "disk_1_") == second);
}

TEST_CASE("block D keeps the first disk behind the second, for types 49 and 48") {
  // RBIL61 CMOS 1Eh-2Dh: the first is entered as 49 (31h), the second as 48 (30h).
  const Layout layout = built_in_layout("at+disks-26");
  Image image = typed_in(64,
                         "00 00 "
                         "40 00 FF 00 0D 80 02 80 01 31 30 00 00 00 00 04 "
                         "09 00 02 FF 03 1A D1 03 05 2C 01 D1 03 11 05 C6 "
                         "80 01 20 00");
  holds_and_reseals(layout, image);
  CHECK(disk(layout, image, "disk_0_") == first);
  CHECK(disk(layout, image, "disk_1_") == second);
  CHECK(read_field(layout.need_field("disk_0_heads"), image).in_use);
  image.set(0x19, 0x27);
  CHECK_FALSE(read_field(layout.need_field("disk_0_heads"), image).in_use);
  CHECK(read_field(layout.need_field("disk_1_heads"), image).in_use);
}

TEST_CASE("block E splits its numbers over nibbles") {
  // RBIL61 CMOS 1Dh-28h. D1h and the 3 of 53h are 3D1h = 977, the 5 of 53h the heads; 2Ch and the 1
  // of 31h are 12Ch = 300, the 3 of 31h and D1h are 3D1h. Then 400h = 1024, 9, 200h, 3FFh, 1Ah.
  const Layout layout = built_in_layout("at+disks-1d");
  const Image image = typed_in(64,
                               "00 00 "
                               "40 00 F0 00 0D 80 02 80 01 27 00 00 00 D1 53 2C "
                               "31 D1 11 00 94 00 32 FF 1A 00 00 00 00 00 06 A9 "
                               "80 01 20 00");
  holds_and_reseals(layout, image);
  CHECK(disk(layout, image, "disk_0_") == first);
  CHECK(disk(layout, image, "disk_1_") == second);
}

TEST_CASE("all memory above 1 MiB is counted in blocks of 64 KiB at 34 or 35") {
  // RBIL61 CMOS 34h-36h; what it is and the order are measured. 0100h blocks = 16,384 KiB.
  const std::string rows =
      "00 00 "
      "40 00 F0 00 0D 80 02 80 01 27 00 00 00 00 00 00 "
      "00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 67 "
      "80 01 20 00 ";
  const Layout at_34 = built_in_layout("at+memory-34"), at_35 = built_in_layout("at+memory-35");
  holds_and_reseals(at_34, typed_in(64, rows + "00 01"));
  CHECK(says(at_34, "memory_above_1m_kib", typed_in(64, rows + "00 01")) == "16384 KiB");
  holds_and_reseals(at_35, typed_in(64, rows + "00 00 01"));
  CHECK(says(at_35, "memory_above_1m_kib", typed_in(64, rows + "00 00 01")) == "16384 KiB");
  CHECK(says(at_35, "memory_above_1m_kib", typed_in(64, rows + "00 40 01")) == "20480 KiB");
}

TEST_CASE("set-up options are read bit by bit") {
  // The bits are from memory; the tables are RBIL61 C0009, C0015, C0032, C0033, C0037, C0038. Sum
  // of 10h-2Dh = 045Ah + B4h + 81h + 6Ch = 05FBh; 20h + 0Ch = 2Ch.
  const Layout layout =
      built_in_layout("at+sum-34-3d+disks-1b+repeat-11+options-13+options-2d+shadow-34");
  const Image image = typed_in(64,
                               "00 00 "
                               "40 B4 F0 81 0D 80 02 80 01 2F 00 D1 03 05 2C 01 "
                               "00 D1 03 11 00 00 00 00 00 00 00 00 00 6C 05 FB "
                               "80 01 20 00 20 0C 00 00 00 00 00 00 00 00 00 2C");
  holds_and_reseals(layout, image);
  CHECK(says(layout, "typematic", image) == "yes");  // B4 = 1 01 101 00
  CHECK(says(layout, "typematic_delay", image) == "500ms");
  CHECK(says(layout, "typematic_rate", image) == "20");
  CHECK(says(layout, "mouse", image) == "yes");  // 81 = 1000 0001
  CHECK(says(layout, "memory_test", image) == "no");
  CHECK(says(layout, "number_lock", image) == "yes");
  CHECK(says(layout, "floppy_seek", image) == "yes");  // 6C = 0110 1100
  CHECK(says(layout, "boot_order", image) == "floppy-first");
  CHECK(says(layout, "fast_start", image) == "no");
  CHECK(says(layout, "internal_cache", image) == "yes");
  CHECK(says(layout, "shadow_c8000", image) == "yes");  // 20 = 0010 0000
  CHECK(says(layout, "shadow_f0000", image) == "yes");  // 0C = 0000 1100
  CHECK(says(layout, "shadow_c0000", image) == "yes");
  CHECK(says(layout, "shadow_e0000", image) == "no");
  CHECK(says(layout, "password_switches", image) == "not set");
  CHECK(says(layout, "password_area", image) == "not set");
}
