#include "judge/examine.h"

#include <catch2/catch.hpp>

#include "base/error.h"
#include "examining.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

/// Addresses and bits whose flip leaves the image sound, as "10.3"; empty is what we want.
std::vector<std::string> unnoticed_flips(const Image& image, const Layout& layout, Range range) {
  std::vector<std::string> unnoticed;
  for (const Address at : to_addresses(range))
    for (unsigned bit = 0; bit < 8; ++bit) {
      const auto flipped = static_cast<std::uint8_t>(image[at] ^ (1U << bit));
      if (examine(with_bytes(image, {{at, flipped}}), layout).sound)
        unnoticed.push_back(to_text(Range{at, at}) + "." + std::to_string(bit));
    }
  return unnoticed;
}

}  // namespace

TEST_CASE("good images are sound") {
  CHECK(examine(at_64_image(), layout_of("at")).sound);
  CHECK(examine(crc_64_image(), layout_of("crc+slots-19")).sound);
}

TEST_CASE("one flipped bit among covered or stored bytes of the sum is always noticed") {
  CHECK(unnoticed_flips(at_64_image(), layout_of("at"), {0x10, 0x2F}) ==
        std::vector<std::string>{});
}

TEST_CASE("one flipped bit among covered or stored bytes of the CRC is always noticed") {
  CHECK(unnoticed_flips(crc_64_image(), layout_of("crc+slots-19"), {0x10, 0x33}) ==
        std::vector<std::string>{});
}

TEST_CASE("faults come before doubts and doubts before notes, each by address") {
  const Image image =
      with_bytes(at_64_image(), {{0x0A, 0xA6}, {0x0B, 0x83}, {0x02, 0x7A}, {0x0E, 0x80}});
  CHECK(found(image) ==
        std::vector<std::string>{"fault clock-byte-illegal at 02h", "fault clock-frozen at 0Bh",
                                 "doubt daylight-saving at 0Bh", "doubt diagnostic-flag at 0Eh",
                                 "note updating at 0Ah"});
}

TEST_CASE("every finding says what was seen, what to do, and where the rule stands") {
  const Image image = with_bytes(at_64_image(), {{0x0A, 0x86},
                                                 {0x0B, 0x83},
                                                 {0x02, 0x7A},
                                                 {0x0D, 0x01},
                                                 {0x10, 0x99},
                                                 {0x0E, 0xFF},
                                                 {0x19, 0x03},
                                                 {0x32, 0xAA}});
  const auto findings = examine(image, layout_of("at")).findings;
  CHECK(findings.size() == 18);
  for (const Finding& finding : findings) {
    INFO(finding.id());
    CHECK(finding.text.ends_with("."));
    CHECK(in_plain_words(finding.advice).ends_with("."));
    CHECK_FALSE(finding.source.empty());
  }
}

TEST_CASE("an image from a flat cell is not sound, though its settings are proven") {
  // A write cannot change register D: DS12885.
  const Image flat = with_bytes(at_64_image(), {{0x0D, 0x00}});
  const Examination examination = examine(flat, layout_of("at"));
  CHECK_FALSE(examination.sound);
  CHECK(examination.standing == Standing{});
  CHECK(examine(with_bytes(flat, {{0x20, 0x01}}), layout_of("at")).standing.settings ==
        Standing::Settings::broken);
}

TEST_CASE("a dump of the RAM alone is judged by its RAM and shows no clock") {
  const Image ram_only = without(at_64_image(), {0x00, 0x0D});
  const Examination examination = examine(ram_only, layout_of("at"));
  CHECK_FALSE(examination.sound);
  CHECK(examination.standing.settings == Standing::Settings::proven);
  CHECK(examination.standing.clock == Standing::Clock::unset);
  CHECK_FALSE(examination.clock.known);
  CHECK_FALSE(examination.clock.time.has_value());
  CHECK_FALSE(examination.clock.running.has_value());
}

TEST_CASE("the clock and each field and check are there, in the layout's order") {
  const Examination examination = examine(at_64_image(), layout_of("at"));
  CHECK(examination.clock.time == DateTime{2031, 5, 14, 9, 30, 0});
  REQUIRE(examination.checks.size() == 1);
  CHECK(examination.checks[0].stored == 0x0267);
  CHECK(examination.checks[0].computed == 0x0267);
  CHECK(examination.fields.size() == layout_of("at").fields.size());
  CHECK(examination.fields.front().field->id == layout_of("at").fields.front().id);
}

TEST_CASE("an image that is too small for the layout is refused") {
  CHECK_THROWS_AS(examine(at_64_image(), layout_of("at+sum-40-7d")), Error);
}
