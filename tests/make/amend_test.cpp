#include "make/amend.h"

#include <catch2/catch.hpp>

#include "complaint.h"
#include "judge/examine.h"
#include "layout/library.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

const Layout& at_64() {
  static const Layout layout = built_in_layout("at");
  return layout;
}

Image amended(const Image& image, const std::vector<std::string>& texts,
              std::optional<DateTime> clock = std::nullopt) {
  std::vector<Setting> settings;
  for (const std::string& text : texts) settings.push_back(parse_setting(at_64(), text));
  return amend(image, at_64(), settings, clock);
}

std::string complaint_about(const std::vector<std::string>& texts) {
  return complaint([&] { amended(at_64_image(), texts); });
}

}  // namespace

TEST_CASE("disk type 2 stands in its nibble, clears the other byte and moves the sum") {
  // RBIL61 CMOS 12h, C0014; the sum by hand: 40 + 20 + 0D + 80 + 02 + 80 + 01 = 0170h.
  CHECK(amended(at_64_image(), {"disk_0_type=2"}) ==
        with_bytes(at_64_image(), {{0x12, 0x20}, {0x19, 0x00}, {0x2E, 0x01}, {0x2F, 0x70}}));
}

TEST_CASE("disk type 2 and then 39 again gives the first image byte for byte") {
  const Image once = amended(at_64_image(), {"disk_0_type=2"});
  CHECK(amended(once, {"disk_0_type=39"}) == at_64_image());
}

TEST_CASE("nothing to set leaves a sound image as it is and seals a broken one") {
  CHECK(amended(at_64_image(), {}) == at_64_image());
  CHECK(amended(with_bytes(at_64_image(), {{0x2E, 0x12}}), {}) == at_64_image());
}

TEST_CASE("floppy count, floppy fitted and memory found follow what is set") {
  // RBIL61 C0019: two drives are 01 in bits 7-6, bit 0 says that one is fitted. 10h = 44h: two of
  // 1.44 MB. Sum by hand: 44 + F0 + 4D + 80 + 02 + 00 + 10 + 27 = 023Ah.
  CHECK(amended(at_64_image(), {"floppy_b=1.44M", "extended_memory_kib=4096"}) ==
        with_bytes(at_64_image(), {{0x10, 0x44},
                                   {0x14, 0x4D},
                                   {0x17, 0x00},
                                   {0x18, 0x10},
                                   {0x30, 0x00},
                                   {0x31, 0x10},
                                   {0x2E, 0x02},
                                   {0x2F, 0x3A}}));
}

TEST_CASE("from no floppy to two, the count follows although it did not count before") {
  const Image none = amended(at_64_image(), {"floppy_a=none"});
  CHECK(none[0x14] == 0x0C);
  const Image two = amended(none, {"floppy_a=1.2M", "floppy_b=1.44M"});
  CHECK(two[0x10] == 0x24);
  CHECK(two[0x14] == 0x4D);
}

TEST_CASE("what follows fields that were not set stays as it was found") {
  const Image odd = with_bytes(at_64_image(), {{0x30, 0x00}});
  CHECK(amended(odd, {"disk_0_type=39"}) == odd);
}

TEST_CASE("a follower may be set to what it follows from, and to nothing else") {
  CHECK(amended(at_64_image(), {"floppy_count=1"}) == at_64_image());
  CHECK(complaint_about({"floppy_count=2"}) ==
        "floppy_count: it is set to 2, but floppy_a, floppy_b would make it 1 / try: leave "
        "floppy_count out, or set it to 1");
  CHECK(complaint_about({"floppy_b=720K", "floppy_count=1"}) ==
        "floppy_count: it is set to 1, but floppy_a, floppy_b would make it 2 / try: leave "
        "floppy_count out, or set it to 2");
  CHECK(complaint_about({"extended_memory_kib=1024", "extended_memory_found_kib=512"}) ==
        "extended_memory_found_kib: it is set to 512 KiB, but extended_memory_kib would make it "
        "1024 KiB / try: leave extended_memory_found_kib out, or set it to 1024 KiB");
}

TEST_CASE("a field set twice must be set to the same") {
  CHECK(complaint_about({"disk_0_type=2", "disk_0_type=3"}) ==
        "disk_0_type: it is set twice, to 2 and to 3 / try: keep one of the two");
  CHECK(complaint_about({"disk_0_type=2", "floppy_a=1.2M", "disk_0_type=2"}) == "accepted");
}

TEST_CASE("the clock is set with weekday and century, and runs") {
  // 29 February 2000 was a Tuesday = 3 (calendar; DS12885: Sunday = 1 by convention). The century
  // stands outside the sum (RBIL61).
  const Image stopped = with_bytes(at_64_image(), {{0x0A, 0x06}, {0x0B, 0x82}, {0x32, 0x19}});
  CHECK(amended(stopped, {}, DateTime{2000, 2, 29, 23, 59, 58}) ==
        with_bytes(at_64_image(), {{0x00, 0x58},
                                   {0x02, 0x59},
                                   {0x04, 0x23},
                                   {0x06, 0x03},
                                   {0x07, 0x29},
                                   {0x08, 0x02},
                                   {0x09, 0x00},
                                   {0x32, 0x20}}));
}

TEST_CASE("the clock's own century and a century set otherwise contradict each other") {
  const DateTime clock{2031, 5, 14, 9, 30, 0};
  CHECK(amended(at_64_image(), {"century=20"}, clock) == at_64_image());
  CHECK(complaint([&] { amended(at_64_image(), {"century=19"}, clock); }) ==
        "century: it is set to 19, but the clock is set to 2031-05-14T09:30:00 / try: leave the "
        "century out: setting the clock sets it");
}

TEST_CASE("a date that the chip cannot count is refused") {
  CHECK(complaint([] {
          amended(at_64_image(), {}, DateTime{2100, 1, 1, 0, 0, 0});
        }) == "clock: 2100-01-01T00:00:00 is not a date and time from 1980 to 2099 / try: ");
}

TEST_CASE("an unknown clock stays unknown when fields are set") {
  const Image ram_only = without(at_64_image(), {0x00, 0x0D});
  const Image changed = amended(ram_only, {"disk_0_type=2"});
  CHECK(changed.unknown() == to_addresses({0x00, 0x0D}));
  CHECK(changed[0x12] == 0x20);
}

TEST_CASE("114 bytes of RAM are amended without a clock and sealed") {
  Image image(std::size_t{128});
  for (std::size_t at = 0x0E; at < 128; ++at) image.set(static_cast<Address>(at), 0);
  const Layout layout = built_in_layout("at");
  const Image changed = amend(image, layout, {parse_setting(layout, "base_memory_kib=640")});
  CHECK(changed.unknown() == to_addresses({0x00, 0x0D}));
  CHECK(changed[0x2E] == 0x00);  // 80h + 02h = 0082h
  CHECK(changed[0x2F] == 0x82);
  CHECK(examine(changed, layout).standing.settings == Standing::Settings::proven);
}

TEST_CASE("an unknown byte under a check is named instead of guessed") {
  const Image image = without(at_64_image(), {0x20, 0x21});
  const std::string words = complaint([&] { amended(image, {"disk_0_type=2"}); });
  CHECK(words.find("20h") != std::string::npos);
}

TEST_CASE("a setting without a value, of an unknown field, or illegal is refused with help") {
  CHECK(complaint_about({"floppy_a"}) ==
        "set: \"floppy_a\" has no \"=\" / try: Write it as FIELD=VALUE.");
  CHECK(complaint_about({"flopy_a=1.44M"}).find("did you mean floppy_a") != std::string::npos);
  CHECK(complaint_about({"disk_0_type=15"}).find("0-14 or 16-255") != std::string::npos);
  CHECK(complaint_about({"floppy_a=1.4M"}).find("none, 360K, 1.2M, 720K, 1.44M, 2.88M") !=
        std::string::npos);
}

TEST_CASE("blanks around a setting's field and value do not matter") {
  const Setting setting = parse_setting(at_64(), " base_memory_kib = 512 KiB ");
  CHECK(setting.field == "base_memory_kib");
  CHECK(setting.value == Value(std::int64_t{512}));
}
