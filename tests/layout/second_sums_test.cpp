#include <catch2/catch.hpp>

#include "hand_images.h"

using namespace rtcmend;
using Ids = std::vector<std::string>;

namespace {

// One 1.44 MB floppy, disk type 39, 640 + 384 KiB. 40h + F0h + 0Dh + 80h + 02h + 80h + 01h + 27h =
// 0267h, high byte first at 2Eh (RBIL61 CMOS 2Eh, 2Fh).
const std::string rows_0e_to_2f =
    "00 00 "
    "40 00 F0 00 0D 80 02 80 01 27 00 00 00 00 00 00 "
    "00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 67 ";

const std::string rows_0e_to_6f = rows_0e_to_2f +
                                  "80 01 20 00 00 00 00 00 00 00 00 00 00 00 00 00 "
                                  "11 22 44 88 00 00 00 00 00 00 00 00 00 00 00 00 "
                                  "FF 80 C3 00 00 00 00 00 00 00 00 00 00 00 00 00 "
                                  "00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 ";

void holds_and_reseals(const std::string& id, const std::string& row_70, const Ids& checks) {
  INFO(id);
  const Layout layout = built_in_layout(id);
  const Image image = typed_in(128, rows_0e_to_6f + row_70);
  CHECK(holding(layout, image) == checks);
  CHECK(resealed(layout, image) == image);
}

}  // namespace

TEST_CASE("a second sum over 34-3D stands at 3Eh, high byte first") {
  // RBIL61 CMOS 3Eh, 3Fh. C1h + 05h + FFh + 81h + 7Eh + 33h = 02F7h.
  const std::string bytes = rows_0e_to_2f + "80 01 20 00 C1 05 00 FF 81 00 00 7E 00 33 02 F7";
  const Ids both{"sum-10-2d", "sum-34-3d"};
  for (const auto& [id, size] : {std::pair("at+sum-34-3d", 64), {"at+sum-34-3d", 128}}) {
    INFO(id);
    const Layout layout = built_in_layout(id);
    const Image image = typed_in(static_cast<std::size_t>(size), bytes);
    CHECK(holding(layout, image) == both);
    CHECK(resealed(layout, image) == image);
    CHECK(says(layout, "disk_0_type", image) == "39");
  }
}

// 11h + 22h + 44h + 88h + FFh + 80h + C3h = 0341h, and 05h + 06h + ... from 74h up.

TEST_CASE("a second sum over 40-79 or 42-79 stands at 7Ah") {
  // RBIL61 CMOS 7Ah, 7Bh. 0341h + 05h to 0Ah = 036Eh; less 11h + 22h = 033Bh.
  holds_and_reseals("at+sum-40-79", "00 00 00 00 05 06 07 08 09 0A 03 6E",
                    {"sum-10-2d", "sum-40-79"});
  holds_and_reseals("at+sum-42-79", "00 00 00 00 05 06 07 08 09 0A 03 3B",
                    {"sum-10-2d", "sum-42-79"});
}

TEST_CASE("a second sum over 40-7C stands at 7Dh") {
  // Measured on 1 image of a real machine; no published source. 0341h + 05h to 0Dh = 0392h.
  holds_and_reseals("at+sum-40-7c", "00 00 00 00 05 06 07 08 09 0A 0B 0C 0D 03 92",
                    {"sum-10-2d", "sum-40-7c"});
}

TEST_CASE("a second sum over 40-7D or 41-7D stands at 7Eh") {
  // Measured on 3 images of real machines; no published source. 0341h + 05h to 0Eh = 03A0h; less
  // 11h = 038Fh.
  holds_and_reseals("at+sum-40-7d", "00 00 00 00 05 06 07 08 09 0A 0B 0C 0D 0E 03 A0",
                    {"sum-10-2d", "sum-40-7d"});
  holds_and_reseals("at+sum-41-7d", "00 00 00 00 05 06 07 08 09 0A 0B 0C 0D 0E 03 8F",
                    {"sum-10-2d", "sum-41-7d"});
}

TEST_CASE("a second sum over 41-7B or 40-7A stands at 7Ch") {
  // Measured on 1 image of a real machine; no published source. 0341h + 05h to 0Ch - 11h = 0374h;
  // 0341h + 05h to 0Bh = 0379h, whatever stands at 7Bh.
  holds_and_reseals("at+sum-41-7b", "00 00 00 00 05 06 07 08 09 0A 0B 0C 03 74",
                    {"sum-10-2d", "sum-41-7b"});
  holds_and_reseals("at+sum-40-7a", "00 00 00 00 05 06 07 08 09 0A 0B 5A 03 79",
                    {"sum-10-2d", "sum-40-7a"});
}

TEST_CASE("the short first sum ends at 20h, and 28h sums 29-2D") {
  // RBIL61 CMOS 28h, 29h, 2Fh; C0028. 0267h + 01h to 06h = 027Ch; 21h-27h are in neither sum.
  // 81h + 10h + 20h + 40h + 07h = F8h.
  const Layout layout = built_in_layout("at+sum-10-20");
  const Image image = typed_in(64,
                               "00 00 "
                               "40 00 F0 00 0D 80 02 80 01 27 00 01 02 03 04 05 "
                               "06 EE 00 00 00 00 00 00 F8 81 10 20 40 07 02 7C "
                               "80 01 20 00");
  CHECK(holding(layout, image) == Ids{"sum-10-20", "sum-29-2d"});
  CHECK(resealed(layout, image) == image);
}

TEST_CASE("2Ch counts in the short sum's second check only while bit 7 of 29h is 1") {
  // RBIL61 C0028. 01h + 10h + 20h + 07h = 38h; the 40h at 2Ch stays out.
  const Layout layout = built_in_layout("at+sum-10-20");
  const Image image = typed_in(64,
                               "00 00 "
                               "40 00 F0 00 0D 80 02 80 01 27 00 01 02 03 04 05 "
                               "06 EE 00 00 00 00 00 00 38 01 10 20 40 07 02 7C "
                               "80 01 20 00");
  CHECK(holding(layout, image) == Ids{"sum-10-20", "sum-29-2d"});
  CHECK(resealed(layout, image) == image);
}
