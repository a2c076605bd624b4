#include "desk/change.h"

#include <catch2/catch.hpp>

#include "desk/open.h"
#include "desk/ready.h"
#include "layout/library.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

constexpr DateTime evening{2031, 5, 14, 20, 30, 0};

std::string text_of_reads(const Image& first, const Image& second) {
  const Opened opened = open_dump({first, Form::raw, {}, {}}, "dump.bin",
                                  {built_in_layout("at"), {{"", second}}, {}}, Shelf());
  for (const Finding& finding : opened.reading)
    if (finding.kind == FindingKind::unstable_reads) return finding.text;
  return {};
}

bool ends_with(const std::string& text, std::string_view end) {
  return text.ends_with(end);
}

}  // namespace

// 0Bh: bit 2 binary, bit 1 24 hours (DS12885). PC firmware asks for BCD on a 24-hour dial (RBIL61,
// INT 1Ah AH = 02h).
TEST_CASE("setting a PC's clock goes over to BCD on a 24-hour dial, and says so") {
  const Layout at = built_in_layout("at"), balance = built_in_layout("balance");
  for (const std::uint8_t mode : std::vector<std::uint8_t>{0x00, 0x04, 0x06}) {
    const Image before = with_bytes(at_64_image(), {{0x0B, mode}});
    for (const Layout& layout : {at, balance}) {
      const Image after = with_time(before, layout, evening);
      CHECK(after[0x0B] == 0x02);
      CHECK(after[0x04] == 0x20);
      CHECK(after[0x02] == 0x30);
    }
  }
  const Image twelve = with_bytes(at_64_image(), {{0x0B, 0x00}});
  CHECK(
      mode_change(twelve, with_time(twelve, at, evening)) ==
      "The clock now counts in BCD on a 24-hour dial, as PC firmware reads it; register B had BCD "
      "on a 12-hour dial.");
  CHECK(mode_change(at_64_image(), with_time(at_64_image(), at, evening)).empty());
}

TEST_CASE("a clock that no PC firmware keeps is set as register B has it") {
  const Image twelve = with_bytes(at_64_image(), {{0x0B, 0x00}});
  const Image after = with_time(twelve, built_in_layout("chip"), evening);
  CHECK(after[0x0B] == 0x00);
  CHECK(after[0x04] == 0x88);  // 8 PM
}

TEST_CASE("of two dumps that differ, the one whose checks hold is named") {
  const Image sound = at_64_image(), bent = with_bytes(sound, {{0x20, 0x55}});
  CHECK(ends_with(text_of_reads(sound, bent),
                  " The checks hold in this dump, and not in the other one."));
  CHECK(ends_with(text_of_reads(bent, sound),
                  " The checks hold in the other dump, and not in this one: use that one."));
  const Image other = with_bytes(sound, {{0x21, 0x55}});
  const std::string neither = text_of_reads(bent, other);
  CHECK_FALSE(neither.empty());
  CHECK(neither.find("checks hold") == std::string::npos);
}

namespace {

/// A dump with others of the same chip.
Opened wavering(const Image& first, const std::vector<Reread>& again) {
  return open_dump({first, Form::raw, {}, {}}, "dump.bin", {built_in_layout("at"), again, {}},
                   Shelf());
}

/// What the first suspect makes of it.
Amended mended(const Opened& dump) {
  const auto all = open_suspects(dump.dump.image, *dump.layout, dump.reading, dump.provenance);
  REQUIRE_FALSE(all.empty());
  return amended(dump.dump.image, *dump.layout, dump.reading, dump.provenance,
                 {{all.front().id}, {}, {}, {}});
}

Image flipped(Address at, unsigned bit) {
  return with_bytes(at_64_image(),
                    {{at, static_cast<std::uint8_t>(at_64_image()[at] ^ (1U << bit))}});
}

}  // namespace

TEST_CASE("what further dumps leave no choice about counts as read once it is put right") {
  for (const auto& again : std::vector<std::vector<Reread>>{
           {{"b", at_64_image()}}, {{"b", flipped(0x15, 7)}, {"c", flipped(0x20, 1)}}}) {
    const Opened dump = wavering(flipped(0x12, 4), again);
    REQUIRE(is_misread(dump.reading));
    const Amended made = mended(dump);
    CHECK(made.image == at_64_image());
    CHECK_FALSE(is_misread(made.reading));
    CHECK(readiness(made.image, *dump.layout, made.reading, {}).is_ready());
  }
}

TEST_CASE("a byte that no check covers, and that two dumps have differently, stays misread") {
  // 33h is under no sum: either value may be right.
  const Opened dump = wavering(flipped(0x12, 4), {{"b", flipped(0x33, 0)}});
  const Amended made = mended(dump);
  CHECK(is_misread(made.reading));
  CHECK_FALSE(readiness(made.image, *dump.layout, made.reading, {}).is_ready());
}

TEST_CASE("without an accepted repair, dumps that waver stay misread") {
  const Opened dump = wavering(flipped(0x12, 4), {{"b", at_64_image()}});
  const Amended set = amended(dump.dump.image, *dump.layout, dump.reading, dump.provenance,
                              {{}, {{0x12, 0xF0}}, {}, {}});
  CHECK(set.image == at_64_image());
  CHECK(is_misread(set.reading));
}

TEST_CASE("bytes of a password that waver are put right by nobody, so the dump stays misread") {
  const Image sound = crc_64_image();
  const Image first = with_bytes(sound, {{0x14, 0x0C}}), second = with_bytes(sound, {{0x38, 0x01}});
  const Opened dump = open_dump({first, Form::raw, {}, {}}, "dump.bin",
                                {built_in_layout("crc+slots-19"), {{"b", second}}, {}}, Shelf());
  const Amended made = mended(dump);
  CHECK(is_misread(made.reading));
}

TEST_CASE("rows, each with its code, were copied rightly, and a listing may have been typed") {
  CHECK(provenance_of({at_64_image(), Form::rows, {}, {}}, {}, {}).origin == Origin::machine);
  CHECK(provenance_of({at_64_image(), Form::hex, {}, {}}, {}, {}).origin == Origin::hand);
}
