#include "terminal/report.h"

#include <catch2/catch.hpp>

#include "layout/library.h"
#include "render/json.h"
#include "render/small_layout.h"
#include "terminal/compare.h"
#include "terminal/layouts.h"

using namespace rtcmend;
using namespace rtcmend::test;

TEST_CASE("changes name the fields whose bits moved, and the checks stored there") {
  const Image before = at_64_image();
  // The low half of 12h is no field of the small layout.
  const Image after = with_bytes(before, {{0x12, 0xF3}, {0x15, 0x00}, {0x2F, 0x00}});
  const auto found = changes(before, after, small_layout());
  REQUIRE(found.size() == 3);
  CHECK(found[0].at == 0x12);
  CHECK(found[0].fields.empty());
  CHECK(found[1].before == 0x80);
  CHECK(found[1].after == 0x00);
  CHECK(found[1].fields == std::vector<std::string>{"base_memory_kib"});
  CHECK(found[2].fields == std::vector<std::string>{"sum-10-2d"});
}

TEST_CASE("a byte that becomes known is a change of all it belongs to") {
  const auto found = changes(without(at_64_image(), {0x10, 0x10}), at_64_image(), small_layout());
  REQUIRE(found.size() == 1);
  CHECK(found[0].before == std::nullopt);
  CHECK(found[0].fields == std::vector<std::string>{"floppy_a"});
}

TEST_CASE("what changed is told in words, by field") {
  // 10h: 40h is one drive of 1.44 MB, 00h none (RBIL61 CMOS 10h).
  const auto found =
      field_changes(with_bytes(at_64_image(), {{0x10, 0x00}}), at_64_image(), small_layout());
  REQUIRE(found.size() == 1);
  CHECK(found[0].id == "floppy_a");
  CHECK(found[0].before == "none");
  CHECK(found[0].after == "1.44M");
}

TEST_CASE("a report says what was written, what changed, and what comes next") {
  Report report;
  report.output = "new.bin";
  report.layout = "small";
  report.size = 64;
  report.changes = {{0x12, 0xF0, 0x20, {"disk_0_type"}}, {0x13, std::nullopt, 0x01, {}}};
  report.fields = {{"disk_0_type", "First fixed disk, type", "unknown", "2"}};
  report.sound = true;
  CHECK(report_text(report, Ink()) ==
        "Wrote new.bin: 64 bytes, raw, layout small.\n"
        "Sound: settings proven, clock right.\n"
        "2 bytes changed:\n"
        "  12  F0 -> 20  disk_0_type\n"
        "  13  ?? -> 01\n"
        "In words:\n"
        "  First fixed disk, type: unknown becomes 2\n"
        "Next: write it into the chip, read the chip back, and let\n"
        "      \"rtcmend compare new.bin READBACK\" say whether it took.\n");
  CHECK(
      to_line(report_json(report)) ==
      R"({"output":"new.bin","form":"raw","layout":"small","layout_file":null,"sound":true,)"
      R"("standing":{"dump":"trusted","settings":"proven","clock":"right"},"changes":[)"
      R"({"at":18,"before":240,"after":32,"fields":["disk_0_type"]},)"
      R"({"at":19,"before":null,"after":1,"fields":[]}],"fields":[{"id":"disk_0_type","label":"First fixed disk, type",)"
      R"("before":"unknown","after":"2"}],"findings":[],"notes":[]})");
}

TEST_CASE("a comparison puts what matters first") {
  const Comparison comparison{
      false, {{0x00, 0x15, 0x16, {}, "it ticks"}, {0x10, 0x40, std::nullopt, {"floppy_a"}, ""}}};
  CHECK(compare_text(comparison, small_layout(), Ink()) ==
        "Different: 1 byte that matters.\n"
        "Matters\n"
        "  at  wanted  found  belongs to\n"
        "  10  40      ??     floppy_a\n"
        "Does not matter\n"
        "  at  wanted  found  belongs to\n"
        "  00  15      16     it ticks\n");
  CHECK(compare_text({true, {}}, small_layout(), Ink()) == "Equal in everything that matters.\n");
}

TEST_CASE("a comparison knows the registers' bits, and a clock that was reset alone") {
  // 0Bh: SET for 24/12 (DS12885, register B).
  const Comparison comparison{
      false, {{0x0B, 0x02, 0x80, {}, ""}, {0x32, 0x20, 0x19, {"century"}, ""}}, Lost::clock};
  CHECK(compare_text(comparison, small_layout(), Ink()) ==
        "Different: 2 bytes that matter.\n"
        "Only the clock and the century differ: it was reset, and the RAM was kept.\n"
        "Matters\n"
        "  at  wanted  found  belongs to\n"
        "  0B  02      80     register B: SET, 24/12\n"
        "  32  20      19     century\n");
}

TEST_CASE("candidates stand in columns") {
  Identification found;
  found.candidates = {{"at", 16.5, "its sum holds"}, {"crc+slots-19", 0, "nothing"}};
  CHECK(identify_text(found, Ink()) ==
        "No layout is clearly ahead.\n"
        "  layout        evidence in bits\n"
        "  at              16.5  its sum holds\n"
        "  crc+slots-19     0.0  nothing\n");
}

TEST_CASE("a tie is told below the candidates, on 80 columns") {
  Identification found;
  found.candidates = {{"at", 16.5, "its sum holds"}, {"at-x", 16.5, "its sum holds"}};
  found.clear = "at";
  found.tied = {"at", "at-x"};
  found.settle = {"A disk type of 47 would speak for at-x."};
  const std::string text = identify_text(found, Ink());
  CHECK(text.find("The layout is at.\n") == 0);
  CHECK(text.ends_with(
      "The first 2 are tied: the bytes do not tell them apart. What the first says is\n"
      "true under all.\n"
      "  A disk type of 47 would speak for at-x.\n"));
}

TEST_CASE("families that say something have a line each, the silent ones one together") {
  Identification found;
  found.candidates = {{"at+sum-40-7d", 16.5, "its sum holds"}};
  found.clear = "at+sum-40-7d";
  found.families = {{"second sum", "sum-40-7d", 11.6, "sum-40-7d holds", {}, false},
                    {"disks by hand", "", 0, "nothing in these bytes tells", {"disks-26"}, true},
                    {"total memory", "", 0, "none of them fits", {}, false}};
  CHECK(identify_text(found, Ink())
            .starts_with("The layout is at+sum-40-7d.\n"
                         "  second sum  sum-40-7d: sum-40-7d holds\n"
                         "Left out, because nothing in these bytes tells: disks by hand.\n"));
}

TEST_CASE("the library fits on a screen of 80 columns and 40 lines") {
  const std::string text = library_text(whole_classes(), whole_traits(), Ink());
  CHECK(text.find("  second sum      sum-34-3d, ") != std::string::npos);
  std::size_t lines = 0, begin = 0;
  for (std::size_t end; (end = text.find('\n', begin)) != std::string::npos; begin = end + 1) {
    CHECK(end - begin <= 80);
    ++lines;
  }
  CHECK(lines <= 40);
}

TEST_CASE("a layout is printed with its legal values") {
  CHECK(layout_text(small_layout(), Ink()) ==
        R"(small: A small layout
Fields (10.7-4 is byte 10, bits 7 to 4)
  10.7-4      floppy_a  First floppy drive
              none, 1.44M
  12.7-4      disk_0_type  First fixed disk, type
              0-14 or 16-255
              16-255 go to byte 19
  15-16       base_memory_kib  Base memory
              0-65535 KiB
  0E          start_status  What the self-test found at the last start
              0-255
              changes by itself
  32          century  Century
              0-99
  38-3F       word  Password
              none: it cannot be set
Checks
  2E-2F       sum-10-2d: 16-bit sum over 10-2D
Notes
  Made for the tests.
Sources
  RBIL61
)");
}
