#include "judge/health.h"

#include <catch2/catch.hpp>

#include "images/injected_faults.h"
#include "images/random_image.h"
#include "judge/rearrange.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

std::vector<std::string> ids(const Image& image) {
  std::vector<std::string> all;
  for (const Finding& finding : health(image, all_layouts())) all.emplace_back(finding.id());
  return all;
}

std::string first_text(const Image& image) {
  const auto findings = health(image, all_layouts());
  return findings.empty() ? "" : findings.front().text;
}

/// What its advice takes back: "shift=1".
std::string taken_back_by(const Image& image) {
  for (const Finding& finding : health(image, all_layouts()))
    for (const AdviceStep& step : finding.advice.steps())
      if (step.act && step.act->kind == Act::Kind::take_back) return step.act->value;
  return {};
}

std::string first_remedy(const Image& image) {
  const auto findings = health(image, all_layouts());
  return findings.empty() ? "" : in_plain_words(findings.front().advice);
}

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

Image filled(std::size_t size, std::uint8_t value) {
  return Image(std::vector<std::uint8_t>(size, value));
}

using Ids = std::vector<std::string>;

}  // namespace

TEST_CASE("sound images are healthy") {
  CHECK(ids(at_64_image()).empty());
  CHECK(ids(crc_64_image()).empty());
}

TEST_CASE("a dump of one value says what did not answer") {
  CHECK(ids(filled(64, 0xFF)) == Ids{"dump-all-ff"});
  CHECK(ids(filled(128, 0x00)) == Ids{"dump-all-00"});
  CHECK(ids(filled(64, 0x5A)) == Ids{"dump-one-value"});
  CHECK(has(first_text(filled(64, 0x5A)), "5Ah"));
}

TEST_CASE("a data bit that is the same everywhere is named with its pin") {
  // AD0-AD7 are pins 4 to 11 of the 24-pin part: published, DS12885.
  const Image low = with_data_bit_stuck(at_64_image(), 1, false).image;
  CHECK(ids(low) == Ids{"data-bit-stuck"});
  CHECK(has(first_text(low), "Data bit 1 is 0 in every byte"));
  CHECK(has(first_remedy(low), "AD1 (pin 5 of a 24-pin part)"));
  const Image high = with_data_bit_stuck(at_64_image(), 6, true).image;
  CHECK(ids(high) == Ids{"data-bit-stuck"});
  CHECK(has(first_text(high), "Data bit 6 is 1 in every byte"));
  CHECK(has(first_remedy(high), "AD6 (pin 10 of a 24-pin part)"));
}

TEST_CASE("two stuck data bits are both named") {
  const Image one = with_data_bit_stuck(at_64_image(), 0, true).image;
  CHECK(ids(with_data_bit_stuck(one, 4, true).image) == Ids{"data-bit-stuck", "data-bit-stuck"});
}

TEST_CASE("a flat cell is not a stuck data bit while the checks hold") {
  CHECK(ids(with_bytes(at_64_image(), {{0x0D, 0x00}})).empty());
}

TEST_CASE("one flipped bit is not taken for a fault of the whole dump") {
  Ids alarms;
  for (Address at = 0x10; at <= 0x2F; ++at)
    for (unsigned bit = 0; bit < 8; ++bit) {
      const auto flipped = static_cast<std::uint8_t>(at_64_image()[at] ^ (1U << bit));
      for (const std::string& id : ids(with_bytes(at_64_image(), {{at, flipped}})))
        alarms.push_back(id + " at " + std::to_string(at) + "." + std::to_string(bit));
    }
  CHECK(alarms == Ids{});
}

TEST_CASE("a stuck address line is named with what it is stuck at") {
  for (unsigned line = 0; line < 6; ++line)
    for (const bool high : {false, true}) {
      const Injected fault = with_address_line_stuck(at_64_image(), line, high);
      CAPTURE(line, high);
      CHECK(ids(fault.image) == Ids{"address-line-stuck"});
      CHECK(has(first_text(fault.image), "line A" + std::to_string(line) + " is stuck"));
      CHECK(has(first_text(fault.image), high ? "most likely at 1" : "most likely at 0"));
    }
}

TEST_CASE("a 64-byte part read as 128 is seen, though the seconds ticked on between the halves") {
  Image image = repeated(at_64_image());
  image.set(0x40, 0x01);
  CHECK(ids(image) == Ids{"halves-mirrored"});
  CHECK(has(first_text(image), "they are taken once"));
}

TEST_CASE("the upper half twice is address line A6 stuck at 1") {
  Image image = repeated(at_64_image());
  Dice dice(64);
  for (Address at = 0x40; at < 0x7F; ++at)
    image.set(at, static_cast<std::uint8_t>(roll(dice, 256)));
  const Injected fault = with_address_line_stuck(image, 6, true);
  CHECK(ids(fault.image) == Ids{"address-line-stuck"});
  CHECK(has(first_text(fault.image), "line A6 is stuck, most likely at 1"));
}

TEST_CASE("a mirrored dump that is shifted as well shows both") {
  CHECK(ids(rotated(repeated(at_64_image()), 1)) == Ids{"halves-mirrored", "shifted"});
}

TEST_CASE("a shift says how far, and what to type") {
  const Image late = rotated(at_64_image(), 1);
  CHECK(ids(late) == Ids{"shifted"});
  CHECK(has(first_text(late), "shifted by 1: what stands at 01h belongs at 00h"));
  CHECK(taken_back_by(late) == "shift=1");
  CHECK(has(first_remedy(late), "3Fh"));
  const Image early = rotated(at_64_image(), -3);
  CHECK(has(first_text(early), "shifted by -3: what stands at 00h belongs at 03h"));
  CHECK(taken_back_by(early) == "shift=-3");
}

TEST_CASE("swapped nibbles and reversed bits say what to type") {
  CHECK(ids(with_nibbles_swapped(crc_64_image())) == Ids{"nibbles-swapped"});
  CHECK(taken_back_by(with_nibbles_swapped(crc_64_image())) == "nibbles");
  CHECK(ids(with_bits_reversed(crc_64_image())) == Ids{"bits-reversed"});
  CHECK(taken_back_by(with_bits_reversed(crc_64_image())) == "bit-order");
}

TEST_CASE("RAM of FFh behind a clock that makes sense points at the RAM-clear input") {
  // RCLR sets every RAM byte to ones and leaves the clock alone: published, DS12885.
  Image image = at_64_image();
  for (Address at = Image::ram_start; at < 0x40; ++at) image.set(at, 0xFF);
  CHECK(ids(image) == Ids{"ram-cleared"});
  CHECK(has(first_remedy(image), "On a part with RAM clear"));
}

TEST_CASE("a dump of the RAM alone is judged by what it holds") {
  CHECK(ids(without(at_64_image(), {0x00, 0x0D})).empty());
}

TEST_CASE("a mirrored half of one value did not answer either, though something ticked") {
  Image image = filled(128, 0x00);
  image.set(0x40, 0x05);
  CHECK(ids(image) == Ids{"halves-mirrored", "dump-all-00"});
}

TEST_CASE("a few known bytes of one value are no dump of one value") {
  const Image fifteen = without(filled(64, 0xFF), {0x0F, 0x3F});
  const Image sixteen = without(filled(64, 0xFF), {0x10, 0x3F});
  CHECK(ids(fifteen) != Ids{"dump-all-ff"});
  CHECK(ids(sixteen) == Ids{"dump-all-ff"});
}

TEST_CASE("a layout that is not among those that are known is judged beside them") {
  // A sum of its own, which fails; read with its nibbles swapped, both it and the clock hold.
  Layout own = all_layouts().front();
  for (const Layout& layout : all_layouts())
    if (layout.id == "at") own = layout;
  own.id = "own";
  own.checks.front().stored_at = 0x3E;
  Image image = at_64_image();
  image.set(0x3E, 0x02);
  image.set(0x3F, 0x67);
  image.set(0x2E, 0x55);
  const LayoutSource others = [] { return std::span<const Layout>(all_layouts()); };
  CHECK(examine_whole(image, own, others).sound);
  const Examination swapped = examine_whole(with_nibbles_swapped(image), own, others);
  CHECK(swapped.findings.front().id() == "nibbles-swapped");
}

TEST_CASE("a dead chip's noise is no fault of the reading") {
  Image image = filled(64, 0x00);
  Dice dice(99);
  for (Address at = 0; at < 0x40; ++at) image.set(at, static_cast<std::uint8_t>(roll(dice, 256)));
  for (const Address at : Addresses{0x00, 0x02, 0x04, 0x06, 0x07, 0x08, 0x09}) image.set(at, 0x99);
  for (const Address at : Addresses{0x01, 0x03, 0x05}) image.set(at, 0xFF);
  image.set(0x0D, 0x00);
  CHECK(ids(image).empty());
}

TEST_CASE("two dumps that differ only where the chip ticks are steady") {
  // Ticking bytes, UIP and register C: published, DS12885.
  const Image later = with_bytes(at_64_image(), {{0x00, 0x05}, {0x0A, 0xA6}, {0x0C, 0x50}});
  CHECK(compare_reads(at_64_image(), {later}).empty());
}

TEST_CASE("two dumps that differ elsewhere name the bytes and bits") {
  const Image second = with_bytes(at_64_image(), {{0x12, 0xE0}, {0x15, 0x90}, {0x20, 0x10}});
  const auto findings = compare_reads(at_64_image(), {second});
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].id() == "unstable-reads");
  CHECK(findings[0].at == Addresses{0x12, 0x15, 0x20});
  CHECK(has(findings[0].text, "12h in bit 4, 15h in bit 4, 20h in bit 4"));
  // All in one data line: AD4 is pin 8 (published, DS12885).
  CHECK(has(in_plain_words(findings[0].advice), "AD4 (pin 8 of a 24-pin part)"));
}

TEST_CASE("what a dump does not know is no difference between two dumps") {
  const Image second = without(with_bytes(at_64_image(), {{0x12, 0xE0}}), {0x12, 0x15});
  CHECK(compare_reads(at_64_image(), {second}).empty());
  CHECK(compare_reads(second, {at_64_image()}).empty());
}

TEST_CASE("a few unsteady bytes point at the cells, many at the supply and the cable") {
  const Image two = with_bytes(at_64_image(), {{0x12, 0xE0}, {0x15, 0x90}});
  const auto few = compare_reads(at_64_image(), {two});
  REQUIRE(few.size() == 1);
  CHECK(has(in_plain_words(few[0].advice), "Few bytes waver: the cells themselves may be weak"));
  const Image three = with_bytes(at_64_image(), {{0x12, 0xE0}, {0x15, 0x98}, {0x20, 0x81}});
  const auto many = compare_reads(at_64_image(), {three});
  REQUIRE(many.size() == 1);
  CHECK(has(many[0].text, "12h in bit 4, 15h in bits 4 and 3, 20h in bits 7 and 0."));
  CHECK(has(in_plain_words(many[0].advice), "Many bytes waver: check the supply"));
}

TEST_CASE("no more than eight unsteady bytes are named") {
  Image second = at_64_image();
  for (Address at = 0x1A; at < 0x24; ++at) second.set(at, 0x01);
  const auto findings = compare_reads(at_64_image(), {second});
  REQUIRE(findings.size() == 1);
  CHECK(has(findings[0].text, ", 21h in bit 0 and 2 more."));
  CHECK_FALSE(has(findings[0].text, "22h"));
  CHECK(findings[0].at.size() == 10);
}

TEST_CASE("a dump of 64 bytes and one of 128 are compared in what both have") {
  CHECK(compare_reads(at_64_image(), {repeated(at_64_image())}).empty());
  CHECK_FALSE(
      compare_reads(with_bytes(at_64_image(), {{0x20, 0x55}}), {repeated(at_64_image())}).empty());
}

TEST_CASE("random sound images raise no alarm, and injected faults are named", "[long][count]") {
  Dice dice(20310514);
  int alarms = 0, total = 0, named = 0;
  for (const Layout& layout : all_layouts())
    for (int i = 0; i < 4; ++i) {
      const Image image = random_image(layout, dice);
      if (!ids(image).empty()) ++alarms;
      for (const FaultKind& kind : fault_kinds()) {
        if (!kind.fits(image)) continue;
        const Injected fault = kind.inject(image, dice);
        if (fault.image == image) continue;
        ++total;
        if (named_rightly(fault)) ++named;
      }
    }
  CHECK(alarms == 0);
  CHECK(total >= 500);
  CHECK(named * 100 >= total * 95);
}
