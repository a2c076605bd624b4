// The same acts on the command line and on the page: the same bytes, the same judgement, the same
// refusal.
#include "end_to_end/two_faces.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "images/misreads.h"
#include "judge/rearrange.h"
#include "support/image_listing.h"
#include "support/sound_images.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

std::string json_dump(const Image& image, const std::string& more) {
  std::string rows;
  for (std::size_t i = 0; i < image.size(); i += 16) {
    rows += rows.empty() ? "\"" : ", \"";
    for (std::size_t j = i; j < i + 16; ++j)
      rows += fmt::format("{}{:02X}", j == i ? "" : " ", image[static_cast<Address>(j)]);
    rows += "\"";
  }
  return fmt::format("{{\"rtcmend\": 1, \"size\": {}, {}\"bytes\": [{}]}}\n", image.size(), more,
                     rows);
}

using Kind = Deed::Kind;
constexpr const char* noon = "2031-06-01T12:00:00";

std::vector<Story> stories() {
  const Image at = at_64_image(), crc = crc_64_image();
  const std::string sound = listing(at), crc_sound = listing(crc);
  const std::string one_bit = listing(with_bytes(at, {{0x15, 0x90}}));
  const std::string crc_bit = listing(with_bytes(crc, {{0x15, 0x90}}));
  const std::string stuck = listing(every_misread(at)[5].image);
  const std::string ones = listing(Image(std::vector<std::uint8_t>(64, 0xFF)));
  const std::string no_clock = listing(with_bytes(at, {{0x02, 0x99}, {0x0A, 0x06}}));
  std::string twice;
  {
    std::vector<std::uint8_t> bytes = at_64_bytes(), again = at_64_bytes();
    bytes.insert(bytes.end(), again.begin(), again.end());
    twice = listing(Image(bytes));
  }
  return {
      {"sealed as it is", sound, "", {{Kind::seal, ""}}},
      {"a field", sound, "", {{Kind::field, "floppy_b=360K"}}},
      {"a field that others follow", sound, "", {{Kind::field, "floppy_a=none"}}},
      {"two fields", sound, "", {{Kind::field, "floppy_a=720K"}, {Kind::field, "disk_0_type=47"}}},
      {"a field and the clock", sound, "", {{Kind::field, "floppy_b=1.2M"}, {Kind::clock, noon}}},
      {"the clock alone", sound, "", {{Kind::clock, noon}}},
      {"the clock of a chip that stands", no_clock, "at", {{Kind::clock, noon}}},
      {"a field of a chip that stands", no_clock, "at", {{Kind::field, "floppy_b=360K"}}},
      {"a byte", sound, "", {{Kind::byte, "20=55"}}},
      {"a byte and a field", sound, "", {{Kind::byte, "21=AA"}, {Kind::field, "floppy_b=2.88M"}}},
      {"a byte outside", sound, "", {{Kind::byte, "50=55"}}},
      {"a byte of a password", crc_sound, "crc+slots-19", {{Kind::byte, "38=55"}}},
      {"an illegal value", sound, "", {{Kind::field, "floppy_a=9M"}}},
      {"an unknown field", sound, "", {{Kind::field, "flopy_a=360K"}}},
      {"one bit repaired", one_bit, "at", {{Kind::repair, "first"}}},
      {"one bit repaired under a CRC", crc_bit, "crc+slots-19", {{Kind::repair, "first"}}},
      {"a repair that is not offered", one_bit, "at", {{Kind::repair, "bit-10-3"}}},
      {"a repair where nothing fails", sound, "", {{Kind::repair, "first"}}},
      {"a failing check sealed", one_bit, "at", {{Kind::seal, ""}}},
      {"a stuck line, sealed", stuck, "at", {{Kind::seal, ""}}},
      {"a stuck line, the clock set", stuck, "at", {{Kind::clock, noon}}},
      {"a stuck line, a field set", stuck, "at", {{Kind::field, "floppy_b=360K"}}},
      {"a stuck line, a repair", stuck, "at", {{Kind::repair, "bit-10-3"}}},
      {"a stuck line, insisted on", stuck, "at", {{Kind::seal, ""}}, "", "save", "keep", true},
      {"ones, the clock set", ones, "at", {{Kind::clock, noon}}},
      {"ones, delivered", ones, "at", {}, "", "dos-program"},
      {"noise of one bit between two dumps",
       sound,
       "",
       {{Kind::clock, noon}},
       listing(with_bytes(at, {{0x16, 0x03}}))},
      {"two dumps that agree", sound, "", {{Kind::clock, noon}}, sound},
      {"two dumps that differ, delivered",
       sound,
       "",
       {},
       listing(with_bytes(at, {{0x16, 0x03}})),
       "boot-floppy"},
      {"shifted, put straight, a field set",
       listing(rotated(at, 1)),
       "",
       {{Kind::take_back, "shift=1"}, {Kind::field, "floppy_b=360K"}}},
      {"nibbles, put straight",
       listing(with_nibbles_swapped(crc)),
       "",
       {{Kind::take_back, "nibbles"}, {Kind::clock, noon}}},
      {"halves that mirror", twice, "", {{Kind::clock, noon}}},
      {"a dump that names its layout",
       json_dump(at, "\"layout\": \"at\", \"note\": \"Fig\", "),
       "",
       {{Kind::field, "floppy_b=360K"}}},
      {"a dump that names an unknown layout",
       json_dump(at, "\"layout\": \"at-65\", "),
       "",
       {{Kind::field, "floppy_b=360K"}}},
      {"a dump that names a layout of another size",
       json_dump(at, "\"layout\": \"at+sum-40-7d\", "),
       "",
       {{Kind::clock, noon}}},
      {"a dump that confesses",
       json_dump(at, "\"layout\": \"at\", \"misread\": [\"A line hung.\"], "),
       "",
       {{Kind::clock, noon}}},
      {"a layout without checks", sound, "chip", {{Kind::clock, noon}}},
      {"a layout of another size", sound, "at+sum-40-7d", {{Kind::clock, noon}}},
      {"delivered by floppy", sound, "", {}, "", "boot-floppy"},
      {"delivered by keyboard", sound, "", {}, "", "keyboard-program"},
      {"delivered with its time", sound, "", {}, "", "debugger-script", "image"},
      {"delivered with a time that stands", no_clock, "at", {}, "", "debugger-script", "image"},
      {"delivered with the clock kept", no_clock, "at", {}, "", "debugger-script"},
      {"delivered though a check fails", one_bit, "at", {}, "", "dos-program"},
      {"delivered though a check fails, insisted on",
       one_bit,
       "at",
       {},
       "",
       "dos-program",
       "keep",
       true},
  };
}

}  // namespace

TEST_CASE("the command line and the page come to the same end", "[long]") {
  for (const Story& story : stories()) {
    INFO(story.name);
    const Ending line = on_the_command_line(story), page = on_the_page(story);
    CHECK(line.refused == page.refused);
    CHECK(line.content == page.content);
    CHECK(line.standing == page.standing);
    CHECK(line.refused.empty() != line.content.empty());
  }
}
