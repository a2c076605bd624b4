#include "make/compose.h"

#include <catch2/catch.hpp>

#include "complaint.h"
#include "judge/examine.h"
#include "layout/library.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

Image composed(std::string_view text) {
  const Description description = parse_description(text, "mine.json");
  return compose(description, built_in_layout(description.layout));
}

std::string complaint_about(std::string_view text) {
  return complaint([&] { composed(text); });
}

}  // namespace

TEST_CASE("an AT-class machine with a 1.44 MB floppy, disk type 39 and 640 + 384 KiB") {
  CHECK(composed(R"({"layout": "at", "clock": "2031-05-14T09:30:00", "set": {
    "floppy_a": "1.44M", "disk_0_type": 39, "base_memory_kib": 640, "extended_memory_kib": 384,
    "display": "own-firmware"}})") == at_64_image());
}

TEST_CASE("a CRC-class machine with the same equipment") {
  CHECK(composed(R"({"layout": "crc+slots-19", "clock": "2031-05-14T09:30:00", "set": {
    "floppy_a": "1.44M", "disk_0_type": 39, "extended_memory_kib": 384, "display_enabled": true,
    "keyboard_enabled": true, "cell_good": true}})") == crc_64_image());
}

TEST_CASE("the size of the chip may be more than the layout needs, and not less") {
  const Image image = composed(R"({"layout": "at", "size": 128})");
  CHECK(image.size() == 128);
  CHECK(image[0x40] == 0x00);
  CHECK(complaint_about(R"({"layout": "at+sum-40-7d", "size": 64})")
            .starts_with("mine.json at /size: a chip of 64 bytes is too small"));
  CHECK(complaint_about(R"({"layout": "at", "size": 114})")
            .starts_with("mine.json at /size: a clock chip holds 64 or 128 bytes"));
}

TEST_CASE("the word for all memory above 1 MiB follows what is configured") {
  // Measured: 34h-35h repeat 17h-18h in blocks of 64 KiB. 15,360 KiB are 240 blocks, F0h.
  const Image image =
      composed(R"({"layout": "at+sum-40-7d+memory-34", "set": {"extended_memory_kib": 15360}})");
  CHECK(image[0x34] == 0xF0);
  CHECK(image[0x35] == 0x00);
}

TEST_CASE("numbers, flags and names may be written as text") {
  CHECK(composed(R"({"layout": "at", "clock": "2031-05-14 09:30", "set": {
    "floppy_a": "1.44m", "disk_0_type": "39", "extended_memory_kib": "384 KiB",
    "keyboard_enabled": "yes", "display_enabled": true}})") == at_64_image());
}

TEST_CASE("without a clock the image starts at 1 January 1980, a Tuesday, and is sound") {
  const Image image = composed(R"({"layout": "at", "set": {"floppy_a": "1.44M"}})");
  const Layout layout = built_in_layout("at");
  const Examination examination = examine(image, layout);
  CHECK(examination.sound);
  CHECK(examination.findings.empty());
  CHECK(examination.clock.time == DateTime{1980, 1, 1, 0, 0, 0});
  CHECK(image[0x06] == 0x03);
  CHECK(image[0x32] == 0x19);
}

TEST_CASE("without a clock but with a century the clock starts in that century") {
  const Image image = composed(R"({"layout": "at", "set": {"century": 20}})");
  CHECK(image[0x09] == 0x00);
  CHECK(image[0x32] == 0x20);
}

TEST_CASE("the registers are those of a healthy chip that runs") {
  // Common practice: 26h and 02h; DS12885: C reads 00h and VRT is on.
  const Image image = composed(R"({"layout": "chip", "size": 128})");
  CHECK(image.size() == 128);
  CHECK(image.all_known());
  CHECK(image[0x0A] == 0x26);
  CHECK(image[0x0B] == 0x02);
  CHECK(image[0x0C] == 0x00);
  CHECK(image[0x0D] == 0x80);
}

TEST_CASE("what follows is derived in every composed image") {
  // RBIL61 C0019: two drives are 01 in bits 7-6.
  const Image image =
      composed(R"({"layout": "at", "set": {"floppy_a": "1.2M", "floppy_b": "1.44M"}})");
  CHECK(image[0x10] == 0x24);
  CHECK(image[0x14] == 0x4D);
  CHECK(composed(R"({"layout": "at"})")[0x14] == 0x0C);
}

TEST_CASE(
    "layouts of the AT class compose to a clean image from their defaults "
    "alone") {
  for (const char* id : {"at", "at+sum-40-7c", "at+sum-40-7d+memory-34"}) {
    INFO(id);
    const Layout layout = built_in_layout(id);
    Description empty;
    empty.layout = id;
    CHECK(examine(compose(empty, layout), layout).findings.empty());
  }
}

TEST_CASE("contradictions, unknown fields and illegal values name their place in the file") {
  CHECK(complaint_about(R"({"layout": "at", "set": {"floppy_a": "1.2M", "floppy_count": 2}})") ==
        "mine.json at /set/floppy_count: it is set to 2, but floppy_a, floppy_b would make it 1 / "
        "try: leave floppy_count out, or set it to 1");
  CHECK(complaint_about(R"({"layout": "at", "set": {"disk_0": 2}})")
            .starts_with("mine.json at /set/disk_0: it has no field \"disk_0\" / try: did you "
                         "mean disk_0_type"));
  CHECK(complaint_about(R"({"layout": "at", "set": {"disk_0_type": 15}})")
            .starts_with("mine.json at /set/disk_0_type: 15 is not among 0-14 or 16-255"));
  CHECK(
      complaint_about(R"({"layout": "at", "set": {"floppy_a": 3}})")
          .starts_with("mine.json at /set/floppy_a: it takes one of its names / try: legal: none"));
  CHECK(complaint_about(R"({"layout": "at", "set": {"keyboard_enabled": 1}})")
            .starts_with("mine.json at /set/keyboard_enabled: it takes yes or no"));
  CHECK(complaint_about(R"({"layout": "crc+slots-19", "set": {"password_area": "00"}})")
            .starts_with("mine.json at /set/password_area: "));
}
