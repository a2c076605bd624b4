#include <algorithm>
#include <catch2/catch.hpp>

#include "examining.h"
#include "support/sound_images.h"

using namespace rtcmend;
using Found = std::vector<std::string>;

namespace {

Image ram_all(std::uint8_t value) {
  std::vector<std::uint8_t> bytes = at_64_bytes();
  std::fill(bytes.begin() + 0x0E, bytes.end(), value);
  return Image(bytes);
}

}  // namespace

TEST_CASE("a sum that does not hold says what is stored, what it comes to and by how much") {
  // 0267h by hand, see at_64_bytes(); 0265h is stored.
  const Image image = with_bytes(at_64_image(), {{0x2F, 0x65}});
  CHECK(found(image) == Found{"fault check-mismatch at 2Eh-2Fh"});
  CHECK(text_of("check-mismatch", image) ==
        "The 16-bit sum over 10h-2Dh comes to 0267h, but 2Eh-2Fh holds 0265h: the stored value is "
        "2 too low.");
}

TEST_CASE("a sum wraps round, so the shorter way round is given") {
  const Image image = with_bytes(at_64_image(), {{0x2E, 0xFF}, {0x2F, 0xFF}});
  CHECK(text_of("check-mismatch", image).find("the stored value is 616 too low") !=
        std::string::npos);  // FFFFh = -1, and 0267h = 615
}

TEST_CASE("a CRC that does not hold says which bits differ") {
  const Image image = with_bytes(crc_64_image(), {{0x33, 0xDF}});
  CHECK(found(image, "crc+slots-19") == Found{"fault check-mismatch at 32h-33h"});
  CHECK(text_of("check-mismatch", image, "crc+slots-19")
            .find("they differ in 2 of 16 bits (xor 0003h)") != std::string::npos);
}

TEST_CASE("a check over unknown bytes cannot be judged, and says which are missing") {
  CHECK(found(without(at_64_image(), {0x20, 0x22})) == Found{"fault check-unknown at 20h-22h"});
  CHECK(found(without(at_64_image(), {0x2E, 0x2E})) == Found{"fault check-unknown at 2Eh"});
}

TEST_CASE("a RAM of zeros passes the sum and is blank all the same") {
  const Found all = found(ram_all(0x00));
  REQUIRE_FALSE(all.empty());
  CHECK(all.front() == "fault blank at 10h-2Dh");
  CHECK_FALSE(examine(ram_all(0x00), layout_of("at")).sound);
}

TEST_CASE("a RAM of FFs is blank") {
  const Found all = found(ram_all(0xFF));
  CHECK(std::count(all.begin(), all.end(), "fault blank at 10h-2Dh") == 1);
}

TEST_CASE("a layout without checks calls a RAM of one value blank, and proves no other") {
  CHECK(found(ram_all(0x00), "chip") ==
        Found{"fault blank at 0Eh-3Fh", "note century-assumed at 09h"});
  CHECK(found(ram_all(0xFF), "chip") ==
        Found{"fault blank at 0Eh-3Fh", "note century-assumed at 09h"});
  CHECK(found(ram_all(0x55), "chip") == Found{"note century-assumed at 09h", "note no-check"});
}

TEST_CASE("a code that a field gives no meaning is a fault where no check vouches for it") {
  // RBIL61 C0008 knows the floppy codes 0 to 5. 09h more here makes the sum 0270h, not 0267h.
  CHECK(findings_with({{0x10, 0x49}}) ==
        Found{"fault field-illegal at 10h", "fault check-mismatch at 2Eh-2Fh"});
  CHECK(examine(with_bytes(at_64_image(), {{0x10, 0x49}}), layout_of("at")).standing.settings ==
        Standing::Settings::broken);
}

TEST_CASE("a code that no list has is doubtful under a check that holds: the list may be short") {
  // 0267h + 09h = 0270h.
  const Image image = with_bytes(at_64_image(), {{0x10, 0x49}, {0x2F, 0x70}});
  CHECK(found(image) == Found{"doubt field-unlisted at 10h"});
  CHECK(examine(image, layout_of("at")).sound);
  CHECK(text_of("field-unlisted", image) ==
        "Second floppy drive (floppy_b): code 9 has no meaning here, yet a check says that the "
        "firmware wrote it: the list may be short, not the byte wrong.");
}

TEST_CASE("base memory above 1024 KiB is a fault under a check that holds as well") {
  // 15h-16h = 8080h, 32896 KiB: 7Eh more than 80h, 02h. 0267h + 7Eh = 02E5h.
  CHECK(findings_with({{0x16, 0x80}, {0x2F, 0xE5}}) == Found{"fault field-illegal at 15h-16h"});
}

TEST_CASE("a type nibble of F needs a type in its other byte") {
  // RBIL61 C0014, C0020: 16 to 255. The 27h of 19h moves to 1Bh, so the sum holds.
  CHECK(findings_with({{0x19, 0x00}, {0x1B, 0x27}}) == Found{"fault escape-missing at 12h, 19h"});
  CHECK(findings_with({{0x19, 0x0F}, {0x1B, 0x18}}) == Found{"fault escape-missing at 12h, 19h"});
}

TEST_CASE("a type left in a byte that the nibble does not point to is noted") {
  // The sum holds: 12h gives D0h away, 1Bh takes it.
  CHECK(findings_with({{0x12, 0x20}, {0x1B, 0xD0}}) == Found{"note escape-leftover at 19h"});
}

TEST_CASE("a diagnostic flag is doubtful and named") {
  // RBIL61 C0005: bit 7 of 0Eh = the clock lost power.
  const Image image = with_bytes(at_64_image(), {{0x0E, 0x80}});
  CHECK(found(image) == Found{"doubt diagnostic-flag at 0Eh"});
  CHECK(text_of("diagnostic-flag", image) ==
        "At its last start the firmware noted: Clock lost its power (diag_clock_lost_power).");
}

TEST_CASE("an equipment byte that contradicts the floppy types is noted: firmware does not mind") {
  // RBIL61 C0019: 7-6 count less one, 0 a floppy is fitted. 1Bh keeps the sum. Measured: 6 images
  // of 5 firmwares disagree, all with 0Eh = 00h; no published source.
  CHECK(findings_with({{0x14, 0x0C}, {0x1B, 0x01}}) == Found{"note floppies-disagree at 10h, 14h"});
  const Image two = with_bytes(at_64_image(), {{0x14, 0x4D}});
  CHECK(text_of("floppies-disagree", two) ==
        "Floppy drives fitted (floppy_count) says 2, but First floppy drive (1.44M) and Second "
        "floppy drive (none) would make it 1.");
}

TEST_CASE("memory found that is not memory configured is doubtful") {
  CHECK(findings_with({{0x30, 0x00}}) == Found{"doubt memory-found-differs at 17h-18h, 30h-31h"});
  CHECK(text_of("memory-found-differs", with_bytes(at_64_image(), {{0x30, 0x00}})) ==
        "Extended memory as found at start (extended_memory_found_kib) says 256 KiB, but Extended "
        "memory as configured (384 KiB) would make it 384 KiB.");
}

TEST_CASE("a relation with an unknown side is left alone") {
  const Image image = without(at_64_image(), {0x31, 0x31});
  CHECK(found(image) == Found{});
}
