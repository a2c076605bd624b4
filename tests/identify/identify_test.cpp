#include "identify/identify.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "images/random_image.h"
#include "judge/examining.h"
#include "judge/made_up.h"
#include "judge/rearrange.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

Identification identified(const Image& image) {
  return identify(
      image, {layout_of("at"), layout_of("at"), layout_of("chip"), layout_of("crc+slots-19")});
}

/// Flips after which the layout is not clear any more, as "10.3"; empty is what we want.
std::vector<std::string> flips_that_hide(const Image& image, const std::string& layout,
                                         Range range) {
  std::vector<std::string> hidden;
  for (const Address at : to_addresses(range))
    for (unsigned bit = 0; bit < 8; ++bit) {
      const auto flipped = static_cast<std::uint8_t>(image[at] ^ (1U << bit));
      if (identified(with_bytes(image, {{at, flipped}})).clear != layout)
        hidden.push_back(to_text(Range{at, at}) + "." + std::to_string(bit));
    }
  return hidden;
}

/// Bytes with a bit whose flip keeps the layout from being clear among all built-in ones.
Addresses bytes_that_hide(const Image& image, const std::string& layout, Range range) {
  Addresses hiding;
  for (const Address at : to_addresses(range)) {
    bool clear = true;
    for (unsigned bit = 0; bit < 8; ++bit) {
      const auto flipped = static_cast<std::uint8_t>(image[at] ^ (1U << bit));
      clear = clear && identify(with_bytes(image, {{at, flipped}}), all_layouts()).clear == layout;
    }
    if (!clear) hiding.push_back(at);
  }
  return hiding;
}

bool has(const std::vector<std::string>& all, const std::string& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

}  // namespace

TEST_CASE("a check that holds makes its layout clear") {
  CHECK(identified(at_64_image()).clear == "at");
  CHECK(identified(crc_64_image()).clear == "crc+slots-19");
}

TEST_CASE("layouts of another size are no candidates, the rest are ranked") {
  const auto candidates = identified(at_64_image()).candidates;
  REQUIRE(candidates.size() >= 3);
  CHECK(candidates[0].layout == "at");
  CHECK(candidates[0].score > 16);
  CHECK(candidates[0].why.find("sum-10-2d holds") == 0);
  for (const Candidate& candidate : candidates) CHECK(candidate.layout != "at");
}

TEST_CASE("a layout without checks has the clock's word alone, and is never clear") {
  const auto found = identified(at_64_image());
  const auto chip = std::find_if(found.candidates.begin(), found.candidates.end(),
                                 [](const Candidate& one) { return one.layout == "chip"; });
  REQUIRE(chip != found.candidates.end());
  CHECK(chip->why == "no check to judge by; clock and registers make sense");
  Image image = at_64_image();
  for (Address at = 0x10; at < 0x40; ++at) image.set(at, static_cast<std::uint8_t>(at * 37 + 11));
  CHECK(identified(image).candidates.front().layout == "chip");
  CHECK(identified(image).clear.empty());
}

TEST_CASE("one flipped bit does not hide what a machine is") {
  const std::vector<std::string> none;
  CHECK(flips_that_hide(at_64_image(), "at", {0x10, 0x2F}) == none);
  CHECK(flips_that_hide(crc_64_image(), "crc+slots-19", {0x10, 0x33}) == none);
}

TEST_CASE("one flipped bit hides the layout from the whole library only where a variant fits") {
  // 21h-27h and 2Ch stand outside the two sums of at+sum-10-20 (RBIL61 C0028), which then hold.
  CHECK(bytes_that_hide(at_64_image(), "at", {0x10, 0x2F}) ==
        Addresses{0x21, 0x22, 0x23, 0x24, 0x25, 0x26, 0x27, 0x2C});
  // 2Bh is the copy of 10h in crc+copy-29 (measured), and a flip makes it one.
  CHECK(bytes_that_hide(crc_64_image(), "crc+slots-19", {0x10, 0x33}) == Addresses{0x2B});
}

TEST_CASE("a copy that the CRC proves wrong speaks against the layout that keeps one") {
  // 10h-12h say one 1.44 MB drive and disk type 39; 2Bh-2Dh, where crc+copy-29 keeps the copy,
  // hold nothing, and so do the slots of crc+slots-19. CRC by Python's binascii.crc_hqx(bytes, 0xFFFF).
  Image image = crc_64_image();
  for (Address at = 0x10; at < 0x40; ++at) image.set(at, 0x00);
  for (const auto& [at, byte] : std::vector<std::pair<Address, std::uint8_t>>{{0x10, 0x40},
                                                                              {0x11, 0x27},
                                                                              {0x13, 0x40},
                                                                              {0x14, 0x0D},
                                                                              {0x15, 0x80},
                                                                              {0x16, 0x02},
                                                                              {0x32, 0xE2},
                                                                              {0x33, 0xF7},
                                                                              {0x37, 0x20}})
    image.set(at, byte);
  const Identification found = identify(image, all_layouts());
  CHECK(found.clear == "crc+slots-19");
  CHECK(found.tied.empty());
}

TEST_CASE("without drives and slots, the two layouts of the CRC class are tied") {
  Image image = crc_64_image();
  for (Address at = 0x10; at < 0x40; ++at) image.set(at, 0x00);
  // CRC by Python's binascii.crc_hqx(bytes, 0xFFFF).
  for (const auto& [at, byte] : std::vector<std::pair<Address, std::uint8_t>>{{0x13, 0x40},
                                                                              {0x14, 0x0C},
                                                                              {0x15, 0x80},
                                                                              {0x16, 0x02},
                                                                              {0x32, 0x9E},
                                                                              {0x33, 0xCA},
                                                                              {0x37, 0x20}})
    image.set(at, byte);
  const Identification found = identify(image, all_layouts());
  CHECK(found.clear.empty());
  CHECK(found.tied == std::vector<std::string>{"crc+copy-29", "crc+slots-19"});
  CHECK(found.settle ==
        std::vector<std::string>{"crc+slots-19 also names 19h-24h: the machine's own setup tells whether "
                                 "it keeps such things there."});
}

TEST_CASE("a blank image, though its sum agrees, is nothing in particular") {
  CHECK(identified(Image(std::vector<std::uint8_t>(64, 0x00))).clear.empty());
  CHECK(identified(Image(std::vector<std::uint8_t>(64, 0xFF))).clear.empty());
}

TEST_CASE("bytes that fit no layout have no candidate") {
  std::vector<std::uint8_t> bytes(64);
  for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<std::uint8_t>(i * 37 + 11);
  CHECK(identified(Image(bytes)).candidates.empty());
  CHECK(identified(Image(bytes)).clear.empty());
}

TEST_CASE("the only layout of a size is clear, and without layouts nothing is") {
  CHECK(identify(at_64_image(), {layout_of("at"), layout_of("at")}).clear == "at");
  CHECK(identify(at_64_image(), {}).clear.empty());
}

TEST_CASE("a dead clock does not hide what good RAM says") {
  Image image = at_64_image();
  for (Address at = 0; at < Image::ram_start; ++at) image.set(at, 0x99);
  CHECK(identified(image).clear == "at");
}

TEST_CASE("a dump of the RAM alone is identified") {
  CHECK(identified(without(at_64_image(), {0x00, 0x0D})).clear == "at");
}

TEST_CASE("variants that the bytes do not tell apart are tied, and the plain one is clear") {
  // Nothing is kept in 1Bh-2Dh or 34h-3Fh: the plain layout is true whichever is right.
  const Identification found = identify(at_64_image(), all_layouts());
  CHECK(found.clear == "at");
  REQUIRE(found.tied.size() > 1);
  CHECK(found.tied[0] == "at");
  CHECK(has(found.tied, "at+sum-34-3d"));
  CHECK(has(found.tied, "at+sum-10-20"));
  CHECK_FALSE(has(found.tied, "crc+slots-19"));
  CHECK_FALSE(has(found.tied, "chip"));
  for (std::size_t i = 0; i < found.tied.size(); ++i) {
    CHECK(found.candidates[i].layout == found.tied[i]);
    CHECK(found.candidates[i].score == found.candidates[0].score);
  }
  CHECK(found.settle.size() == found.tied.size() - 1);
  CHECK(has(found.settle,
            "at+sum-34-3d also keeps a check over 34h-3Dh, where every byte is 00h: a dump taken "
            "once the machine keeps something there would tell."));
  CHECK(has(found.settle,
            "at+memory-34 also names 34h-35h: the machine's own setup tells "
            "whether it keeps such things there."));
}

TEST_CASE("a second check that holds on bytes of its own makes the richer layout clear") {
  // Second sum over 34h-3Dh at 3Eh, high byte first: RBIL61 CMOS 3Eh. 12h + 34h = 46h.
  const Image image =
      with_bytes(at_64_image(), {{0x34, 0x12}, {0x3A, 0x34}, {0x3E, 0x00}, {0x3F, 0x46}});
  const Identification found = identify(image, all_layouts());
  CHECK(found.clear == "at+sum-34-3d");
  CHECK(found.candidates[0].layout == "at+sum-34-3d");
}

TEST_CASE(
    "a second check that one flipped bit would explain keeps the plain one from being clear") {
  const Image image =
      with_bytes(at_64_image(), {{0x34, 0x12}, {0x3A, 0x35}, {0x3E, 0x00}, {0x3F, 0x46}});
  const Identification found = identify(image, all_layouts());
  CHECK(found.clear.empty());
  CHECK(has(found.tied, "at"));
  CHECK(has(found.tied, "at+sum-34-3d"));
}

TEST_CASE("sums that differ in covering a byte that is zero are tied, and either is as good") {
  std::vector<std::uint8_t> bytes = at_64_bytes();
  bytes.resize(128);
  // Second sum at 7Eh from 40h, or from 41h: seen on images of real machines. 21h + 40h = 61h.
  const Image image =
      with_bytes(Image(bytes), {{0x45, 0x21}, {0x60, 0x40}, {0x7E, 0x00}, {0x7F, 0x61}});
  const Identification found = identify(image, all_layouts());
  CHECK(found.tied == std::vector<std::string>{"at+sum-40-7d", "at+sum-41-7d"});
  CHECK(found.clear == "at+sum-40-7d");
  CHECK(found.settle ==
        std::vector<std::string>{
            "at+sum-40-7d and at+sum-41-7d differ in whether 40h counts in a check, and that makes "
            "no difference here: a dump in which it holds something else would tell."});
}

TEST_CASE("a CRC in the other order is identified, and the order is reported") {
  // RBIL61 prints the CRC class's check bytes low byte first; real machines keep the high one
  // first.
  const Image image = with_bytes(crc_64_image(), {{0x32, 0xDC}, {0x33, 0x5C}});
  const Identification found = identify(image, all_layouts());
  REQUIRE_FALSE(found.candidates.empty());
  CHECK(found.candidates[0].layout == "crc+slots-19");
  CHECK(found.candidates[0].why.find("crc-10-31 holds with its two bytes in the other order") == 0);
}

TEST_CASE("a 64-byte part read as 128 has 64-byte candidates, and is said to be one") {
  const Identification found = identify(repeated(at_64_image()), all_layouts());
  CHECK(found.mirrored);
  CHECK(found.clear == "at");
  REQUIRE_FALSE(found.candidates.empty());
  CHECK(found.candidates[0].why.find("a 64-byte part was read as 128") != std::string::npos);
}

TEST_CASE("random sound images are first or tied, and noise is claimed by nobody") {
  Dice dice(19840814);
  std::vector<std::string> missed;
  for (const Layout& layout : all_layouts())
    for (int i = 0; i < 10; ++i) {
      const Identification found = identify(random_image(layout, dice), all_layouts());
      const bool first = !found.candidates.empty() && found.candidates.front().layout == layout.id;
      if (!first && !has(found.tied, layout.id)) missed.push_back(layout.id);
    }
  // At least 99 of 100.
  CHECK(missed.size() * 100 <= all_layouts().size() * 10);
  for (int i = 0; i < 100; ++i)
    CHECK(identify(random_noise(64, dice), all_layouts()).clear.empty());
}

TEST_CASE("recognising a layout comes to the one that identifying calls clear") {
  Dice dice(95);
  int clear = 0;
  for (const Layout& layout : all_layouts())
    for (int round = 0; round < 4; ++round) {
      Image image = random_image(layout, dice);
      if (round % 2 == 1) image.set(0x10, static_cast<std::uint8_t>(roll(dice, 256)));
      const Identification found = identify(image, all_layouts());
      const Layout* recognised = recognise(image, all_layouts());
      CHECK((recognised == nullptr ? "" : recognised->id) == found.clear);
      clear += recognised == nullptr ? 0 : 1;
    }
  CHECK(clear > 20);
}

TEST_CASE("no layout is recognised in 64 bytes read as 128, though its half has a clear one") {
  const Image mirrored = repeated(at_64_image());
  CHECK(identify(mirrored, all_layouts()).clear == "at");
  CHECK(recognise(mirrored, all_layouts()) == nullptr);
}

TEST_CASE("a layout without checks is never clear, however well its fields fit") {
  std::string fields;
  for (int at = 0x10; at < 0x18; ++at)
    fields += (fields.empty() ? "" : ",") +
              field_entry("f" + std::to_string(at),
                          R"("at": ")" +
                              to_text(Range{static_cast<Address>(at), static_cast<Address>(at)}) +
                              R"(", "choice": {"5": "five"})");
  Image image = at_64_image();
  for (Address at = 0x10; at < 0x18; ++at) image.set(at, 5);
  const auto found =
      identify(image, {made_up(R"("fields": [)" + fields + "]", "fitting"), layout_of("chip")});
  REQUIRE_FALSE(found.candidates.empty());
  CHECK(found.candidates.front().layout == "fitting");
  CHECK(found.candidates.front().score > 50);
  CHECK(found.clear.empty());
}
