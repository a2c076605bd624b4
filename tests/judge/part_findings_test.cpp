#include "judge/part_findings.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "layout/library.h"
#include "layout/parts_catalogue.h"
#include "support/sound_images.h"

using namespace rtcmend;
using Ids = std::vector<std::string>;

namespace {

std::vector<Finding> findings(const Image& image, const char* layout, const char* part) {
  return part_findings(image, built_in_layout(layout), need_part(part));
}

Ids ids(const Image& image, const char* layout, const char* part) {
  Ids all;
  for (const Finding& finding : findings(image, layout, part)) all.emplace_back(finding.id());
  return all;
}

/// The finding with this id; the test fails when there is none.
Finding the(const std::string& id, const Image& image, const char* layout, const char* part) {
  for (const Finding& finding : findings(image, layout, part))
    if (finding.id() == id) return finding;
  throw std::runtime_error("there is no finding " + id);
}

bool is_there(const std::string& id, const Image& image, const char* layout, const char* part) {
  const Ids all = ids(image, layout, part);
  return std::find(all.begin(), all.end(), id) != all.end();
}

/// The clock of a sound image, every RAM byte at ones.
Image cleared() {
  std::vector<std::uint8_t> bytes = at_64_bytes();
  std::fill(bytes.begin() + 0x0E, bytes.end(), std::uint8_t{0xFF});
  return Image(bytes);
}

Image image_128() {
  std::vector<std::uint8_t> bytes = at_64_bytes();
  bytes.resize(128);
  return Image(bytes);
}

}  // namespace

TEST_CASE("a bare part forgets out of its socket, and the early one hides a flat cell") {
  CHECK(ids(at_64_image(), "at", "DS1285") == Ids{"part-bare"});
  // That reading 0Dh sets VRT is from memory.
  CHECK(ids(at_64_image(), "at", "MC146818A") == Ids{"part-bare", "part-valid-by-reading"});
  CHECK_FALSE(is_there("part-valid-by-reading", with_bytes(at_64_image(), {{0x0D, 0x00}}), "at",
                       "MC146818A"));
}

TEST_CASE("divider bits that stop the others make the early and the banked parts count") {
  // MC146818A: 000 and 001 are faster crystals. DS1685: 011 is the other bank, from memory.
  const auto divider = [](std::uint8_t a, const char* part) {
    return is_there("part-counts-otherwise", with_bytes(at_64_image(), {{0x0A, a}}), "at", part);
  };
  CHECK(divider(0x06, "MC146818A"));
  CHECK(divider(0x36, "DS1685"));
  CHECK_FALSE(divider(0x36, "MC146818A"));
  CHECK_FALSE(divider(0x06, "DS12887"));
  CHECK_FALSE(divider(0x26, "MC146818A"));
}

TEST_CASE("when daylight saving begins goes by the part") {
  // The MC146818A from memory, the DS12887 by DS12885.
  const Image image = with_bytes(at_64_image(), {{0x0B, 0x03}});
  CHECK(the("part-daylight-saving", image, "at", "MC146818A").text.find("last Sunday") !=
        std::string::npos);
  CHECK(the("part-daylight-saving", image, "at", "DS12887").text.find("first Sunday") !=
        std::string::npos);
  CHECK_FALSE(is_there("part-daylight-saving", at_64_image(), "at", "DS12887"));
}

TEST_CASE("a 64-byte part is too small for a 128-byte layout") {
  // MC146818A: 50 bytes of RAM behind 14 of clock.
  CHECK(ids(image_128(), "at+sum-40-7d", "DS1287").front() == "part-too-small");
  const Finding finding = the("part-too-small", image_128(), "at+sum-40-7d", "DS1287");
  CHECK(finding.severity() == Severity::fault);
  CHECK(finding.at.size() == 64);
  CHECK(finding.at.front() == 0x40);
}

TEST_CASE("a 128-byte part works in a 64-byte machine") {
  // Common practice, no source.
  const Finding finding = the("part-larger", at_64_image(), "at", "DS12887");
  CHECK(finding.severity() == Severity::note);
}

TEST_CASE("a part that counts the century at 32h fights check bytes there") {
  // DS12885: the C parts keep the century at 32h; the CRC class has check bytes at 32h, 33h.
  const Finding finding = the("part-century-clash", crc_64_image(), "crc+slots-19", "DS12C887");
  CHECK(finding.severity() == Severity::doubt);
  CHECK(finding.at == Addresses{0x32});
  CHECK(finding.text ==
        "The DS12C887 counts the century at 32h by itself, where this layout keeps a byte of "
        "crc-10-31: the byte changes when the century does. 5Ch is not made of decimal digits and "
        "may not survive there.");
  CHECK(the("part-century-clash", with_bytes(crc_64_image(), {{0x32, 0x19}}), "crc+slots-19",
            "DS12C887")
            .text.find("decimal") == std::string::npos);
}

TEST_CASE("a byte that a balance covers is no place for a century that counts itself") {
  const Image zeros(std::vector<std::uint8_t>(64, 0));
  CHECK(the("part-century-clash", zeros, "balance", "DS12C887A").at == Addresses{0x32});
}

TEST_CASE("a part that counts the century suits the AT class, whose century is at 32h") {
  CHECK_FALSE(is_there("part-century-clash", at_64_image(), "at", "DS12C887"));
  CHECK_FALSE(is_there("part-century-clash", crc_64_image(), "crc+slots-19", "DS12887"));
}

TEST_CASE("all ones behind a running clock point to a grounded RAM-clear pin") {
  // DS12885: RCLR sets every RAM byte to ones and leaves the clock.
  const Finding finding = the("part-ram-cleared", cleared(), "at", "DS12887A");
  CHECK(finding.severity() == Severity::doubt);
  CHECK(finding.text.find("pin 21") != std::string::npos);
  CHECK_FALSE(is_there("part-ram-clear", cleared(), "at", "DS12887A"));
}

TEST_CASE("without RAM clear, with a stopped clock or with one other byte it is something else") {
  CHECK_FALSE(is_there("part-ram-cleared", cleared(), "at", "DS12887"));
  CHECK_FALSE(
      is_there("part-ram-cleared", with_bytes(cleared(), {{0x0A, 0x06}}), "at", "DS12887A"));
  CHECK_FALSE(
      is_there("part-ram-cleared", with_bytes(cleared(), {{0x00, 0x99}}), "at", "DS12887A"));
  CHECK_FALSE(
      is_there("part-ram-cleared", with_bytes(cleared(), {{0x3F, 0xFE}}), "at", "DS12887A"));
  CHECK(the("part-ram-clear", at_64_image(), "at", "DS12887A").severity() == Severity::note);
}

TEST_CASE("a century that the part counts itself survives a clearing of the RAM") {
  const Image image = with_bytes(cleared(), {{0x32, 0x20}});
  CHECK(the("part-ram-cleared", image, "at", "DS12C887A").id() == "part-ram-cleared");
  CHECK_FALSE(is_there("part-ram-cleared", image, "at", "DS12887A"));
}

TEST_CASE("a new potted part needs an image that starts its oscillator") {
  // DS12885: potted parts come with the oscillator off; 010 in bits 6-4 of 0Ah starts it.
  CHECK(in_plain_words(the("part-ships-stopped", at_64_image(), "at", "DS1287").advice) ==
        "This image starts it: bits 6 to 4 of 0Ah are 010.");
  const Finding stopped =
      the("part-ships-stopped", with_bytes(at_64_image(), {{0x0A, 0x06}}), "at", "DS1287");
  CHECK(in_plain_words(stopped.advice) ==
        "Set the clock, which gives bits 6 to 4 of 0Ah the value 010.");
  CHECK(stopped.advice.steps().front().act == Act{Act::Kind::set_clock, {}, {}});
}

TEST_CASE("a trickle charger and a plain lithium cell do not go together") {
  // Published: data sheet 19-5217.
  CHECK(the("part-trickle-charger", at_64_image(), "at", "DS12R885").severity() == Severity::doubt);
  CHECK_FALSE(is_there("part-trickle-charger", at_64_image(), "at", "DS12885"));
}

TEST_CASE("a century that the part counts clashes with a check that covers it") {
  // The C parts keep the century at 32h: DS12885. The field there is gone, the sum reaches over it.
  Layout layout = built_in_layout("at");
  std::erase_if(layout.fields, [](const Field& field) { return field.id == "century"; });
  layout.checks.front().over.push_back({{0x30, 0x33}, std::nullopt});
  const auto text = [&](std::uint8_t byte) {
    for (const Finding& finding :
         part_findings(with_bytes(at_64_image(), {{0x32, byte}}), layout, need_part("DS12C887")))
      if (finding.id() == "part-century-clash") return finding.text;
    return std::string();
  };
  CHECK(text(0x20).ends_with(
      "where this layout keeps a byte that sum-10-2d covers: the byte changes when the century "
      "does."));
  CHECK(text(0x2A).ends_with("2Ah is not made of decimal digits and may not survive there."));
  CHECK(text(0xA2).ends_with("A2h is not made of decimal digits and may not survive there."));
}

TEST_CASE("an image that does not start a new part's oscillator is told how to") {
  const auto remedy = [](const Image& image) {
    return in_plain_words(the("part-ships-stopped", image, "at", "DS12887").advice);
  };
  CHECK(remedy(at_64_image()).starts_with("This image starts it"));
  CHECK(remedy(with_bytes(at_64_image(), {{0x0A, 0x66}})).starts_with("Set the clock"));
  CHECK(remedy(without(at_64_image(), {0x0A, 0x0A})).starts_with("Set the clock"));
}

TEST_CASE("RAM at ones behind a clock that stands is not laid to the RAM-clear pin") {
  CHECK(the("part-ram-cleared", cleared(), "at", "DS12887A").id() == "part-ram-cleared");
  for (const Image& image : {with_bytes(cleared(), {{0x0A, 0x66}}),
                             without(cleared(), {0x0A, 0x0A}), without(cleared(), {0x00, 0x00})})
    CHECK_FALSE(is_there("part-ram-cleared", image, "at", "DS12887A"));
}
