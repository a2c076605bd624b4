#include "identify/identify.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "images/random_image.h"
#include "judge/examining.h"
#include "judge/made_up.h"
#include "judge/rearrange.h"
#include "layout/library.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

Identification identified(const Image& image) {
  return identify(image);
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
      clear = clear && identify(with_bytes(image, {{at, flipped}})).clear == layout;
    }
    if (!clear) hiding.push_back(at);
  }
  return hiding;
}

FamilyWord family(const Identification& found, const std::string& name) {
  for (const FamilyWord& word : found.families)
    if (word.family == name) return word;
  FAIL("no family " << name);
  return {};
}

Image on_128_bytes(std::vector<std::uint8_t> bytes) {
  bytes.resize(128);
  return Image(bytes);
}

bool has(const std::vector<std::string>& all, const std::string& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

}  // namespace

TEST_CASE("a check that holds makes its layout clear") {
  CHECK(identified(at_64_image()).clear == "at");
  CHECK(identified(crc_64_image()).clear == "crc+slots-19");
}

TEST_CASE("candidates are ranked, a class once, with the reasons") {
  const auto candidates = identified(at_64_image()).candidates;
  REQUIRE(candidates.size() >= 2);
  CHECK(candidates[0].layout == "at");
  CHECK(candidates[0].score > 16);
  CHECK(candidates[0].why.find("sum-10-2d holds") == 0);
  for (std::size_t i = 1; i < candidates.size(); ++i)
    CHECK_FALSE(candidates[i].layout.starts_with("at"));
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
  CHECK(flips_that_hide(at_64_image(), "at", {0x10, 0x20}) == none);
  CHECK(flips_that_hide(crc_64_image(), "crc+slots-19", {0x10, 0x33}) == none);
}

TEST_CASE("one flipped bit hides the layout only where another version of the class fits") {
  // 21h-27h and 2Ch stand outside the two sums of at+sum-10-20 (RBIL61 C0028), which then hold.
  CHECK(bytes_that_hide(at_64_image(), "at", {0x10, 0x2F}) ==
        Addresses{0x21, 0x22, 0x23, 0x24, 0x25, 0x26, 0x27, 0x2C});
}

TEST_CASE("a copy that the CRC proves wrong speaks against the layout that keeps one") {
  // 10h-12h say one 1.44 MB drive and disk type 39; 2Bh-2Dh, where crc+copy-29 keeps the copy,
  // hold nothing, and so do the slots of crc+slots-19. CRC by Python's binascii.crc_hqx(bytes,
  // 0xFFFF).
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
  const Identification found = identify(image);
  CHECK(found.clear == "crc+slots-19");
  CHECK(found.tied.empty());
}

TEST_CASE("without drives and slots, the two kinds of the CRC class are told apart by nothing") {
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
  const Identification found = identify(image);
  CHECK(found.clear == "crc");
  const FamilyWord adapters = family(found, "adapters");
  CHECK(adapters.open);
  CHECK(adapters.tied == std::vector<std::string>{"copy-29", "slots-19"});
  CHECK(adapters.why == "nothing in these bytes tells");
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

TEST_CASE("a right CRC over a configuration of nearly all FF is of the CRC class") {
  // So on 1 image of a real machine (measured): a configuration that was reset.
  // CRC by Python's binascii.crc_hqx(bytes([0xFF] * 33 + [0xFE]), 0xFFFF).
  Image image = crc_64_image();
  for (Address at = 0x10; at < 0x32; ++at) image.set(at, 0xFF);
  image.set(0x31, 0xFE);
  image.set(0x32, 0x94);
  image.set(0x33, 0x95);
  CHECK(identify(image).clear.starts_with("crc"));
}

TEST_CASE("a dead clock does not hide what good RAM says") {
  Image image = at_64_image();
  for (Address at = 0; at < Image::ram_start; ++at) image.set(at, 0x99);
  CHECK(identified(image).clear == "at");
}

TEST_CASE("a dump of the RAM alone is identified") {
  CHECK(identified(without(at_64_image(), {0x00, 0x0D})).clear == "at");
}

TEST_CASE("what the bytes do not tell apart is left out, and said family by family") {
  // Nothing is kept in 1Bh-2Dh or 34h-3Fh: the plain layout is true whichever is right.
  const Identification found = identify(at_64_image());
  CHECK(found.clear == "at");
  CHECK(found.tied.empty());
  const FamilyWord first = family(found, "first sum");
  CHECK(first.trait.empty());
  CHECK(first.tied == std::vector<std::string>{"sum-10-2d", "sum-10-20"});
  CHECK(first.why == "sum-10-2d; sum-10-20 says the same here because 21h-2Dh are 00");
  CHECK(has(family(found, "second sum").tied, "sum-34-3d"));
  CHECK(has(family(found, "total memory").tied, "memory-34") == false);  // 384 KiB are 6 blocks
  CHECK(family(found, "options at 11h").open);
}

TEST_CASE("a second check that holds on bytes of its own makes the richer layout clear") {
  // Second sum over 34h-3Dh at 3Eh, high byte first: RBIL61 CMOS 3Eh. 12h + 34h = 46h.
  const Image image =
      with_bytes(at_64_image(), {{0x34, 0x12}, {0x3A, 0x34}, {0x3E, 0x00}, {0x3F, 0x46}});
  const Identification found = identify(image);
  CHECK(found.clear == "at+sum-34-3d");
  CHECK(found.candidates[0].layout == "at+sum-34-3d");
  CHECK(family(found, "second sum").why == "sum-34-3d holds");
}

TEST_CASE("a second sum that one flipped bit would explain is not claimed, but said") {
  const Image image =
      with_bytes(at_64_image(), {{0x34, 0x12}, {0x3A, 0x35}, {0x3E, 0x00}, {0x3F, 0x46}});
  const Identification found = identify(image);
  CHECK(found.clear == "at");
  CHECK(family(found, "second sum").why ==
        "none of them fits; sum-34-3d fails by what one slip would do");
}

TEST_CASE("beside the memory word that it is usually met with, such a sum is claimed") {
  // 34h-35h low byte first are all memory above 1 MiB in blocks of 64 KiB, and go with 40-7D on 8
  // of 8 images (measured). 384 KiB are 6 blocks. The sum would be 0061h.
  Image image = on_128_bytes(at_64_bytes());
  for (const auto& [at, byte] : std::vector<std::pair<Address, std::uint8_t>>{
           {0x34, 0x06}, {0x45, 0x21}, {0x60, 0x44}, {0x7E, 0x00}, {0x7F, 0x61}})
    image.set(at, byte);
  CHECK(identify(image).clear == "at+sum-40-7d+memory-34");
}

TEST_CASE("noise in the upper half of a newer part suggests no trait by a near miss") {
  Dice dice(20);
  int claimed = 0;
  for (int i = 0; i < 1000; ++i) {
    Image image = on_128_bytes(at_64_bytes());
    for (unsigned at = 0x40; at < 0x80; ++at)
      image.set(static_cast<Address>(at), static_cast<std::uint8_t>(roll(dice, 256)));
    const Identification found = identify(image);
    if (found.clear != "at") ++claimed;
  }
  CHECK(claimed <= 1);
}

TEST_CASE("sums that differ in covering a byte that is zero are one answer, with the reason") {
  // Second sum at 7Eh from 40h, or from 41h: measured on 8 images. 21h + 40h = 61h.
  Image image = on_128_bytes(at_64_bytes());
  for (const auto& [at, byte] : std::vector<std::pair<Address, std::uint8_t>>{
           {0x45, 0x21}, {0x60, 0x40}, {0x7E, 0x00}, {0x7F, 0x61}})
    image.set(at, byte);
  const Identification found = identify(image);
  CHECK(found.clear == "at+sum-40-7d");
  const FamilyWord second = family(found, "second sum");
  CHECK(second.tied == std::vector<std::string>{"sum-40-7d", "sum-41-7d"});
  CHECK(second.why == "sum-40-7d holds; sum-41-7d says the same here because 40h is 00");
}

TEST_CASE("a CRC in the other order is identified, and the order is reported") {
  // RBIL61 prints the CRC class's check bytes low byte first; real machines keep the high one
  // first.
  const Image image = with_bytes(crc_64_image(), {{0x32, 0xDC}, {0x33, 0x5C}});
  const Identification found = identify(image);
  REQUIRE_FALSE(found.candidates.empty());
  CHECK(found.candidates[0].layout == "crc+slots-19");
  CHECK(found.candidates[0].why.find("crc-10-31 holds with its two bytes in the other order") == 0);
}

TEST_CASE("a 64-byte part read as 128 has 64-byte candidates, and is said to be one") {
  const Identification found = identify(repeated(at_64_image()));
  CHECK(found.mirrored);
  CHECK(found.clear == "at");
  REQUIRE_FALSE(found.candidates.empty());
  CHECK(found.candidates[0].why.find("a 64-byte part was read as 128") != std::string::npos);
}

/// A class with traits drawn from its families, some of them none.
Layout random_layout(Dice& dice) {
  for (;;) {
    const LayoutClass& of = built_in_classes()[roll(dice, 4)];
    if (of.core.checks.empty()) continue;
    std::vector<const Trait*> traits;
    for (const std::string& wanted : of.families) {
      std::vector<const Trait*> members;
      for (const Trait& trait : built_in_traits())
        if (trait.family == wanted && has(trait.of, of.core.id)) members.push_back(&trait);
      // A machine of the CRC class has slots or a second copy (7 of 7 images; measured).
      if (wanted != "adapters" && !once_in(dice, 3)) continue;
      const Trait* drawn = members[roll(dice, static_cast<unsigned>(members.size()))];
      if (std::ranges::all_of(
              traits, [&](const Trait* other) { return why_not_together(*other, *drawn).empty(); }))
        traits.push_back(drawn);
    }
    return assemble(of, traits);
  }
}

/// A sound image on its chip, or on one of 128 bytes whose upper half is noise, FF, 00 or a mirror.
Image on_some_chip(const Image& image, Dice& dice) {
  if (image.size() == Image::large_size || once_in(dice, 5)) return image;
  Image large = repeated(image);
  const unsigned kind = roll(dice, 4);
  for (unsigned at = 0x40; at < 0x80 && kind != 3; ++at)
    large.set(static_cast<Address>(at), static_cast<std::uint8_t>(kind == 0   ? roll(dice, 256)
                                                                  : kind == 1 ? 0xFF
                                                                              : 0x00));
  return large;
}

std::string class_of(const std::string& name) {
  return name.substr(0, name.find('+'));
}

/// Whether a family's word agrees with what the image was made by, or honestly does not choose.
bool is_right(const FamilyWord& word, const Layout& made_by) {
  const auto was_made_by = [&](const std::string& trait) {
    return ("+" + made_by.id + "+").find("+" + trait + "+") != std::string::npos;
  };
  if (word.open || word.trait.empty()) {
    for (const Trait& trait : built_in_traits())
      if (trait.family == word.family && was_made_by(trait.id)) return has(word.tied, trait.id);
    return true;
  }
  return was_made_by(word.trait) || std::ranges::any_of(word.tied, was_made_by);
}

TEST_CASE("of random sound images on any chip the class is found, and each family or its tie",
          "[long][count]") {
  Dice dice(19840814);
  int images = 0, classes = 0, families = 0, right = 0;
  std::string misses;
  for (; images < 1500; ++images) {
    const Layout layout = random_layout(dice);
    const Identification found = identify(on_some_chip(random_image(layout, dice), dice));
    if (found.candidates.empty() ||
        class_of(found.candidates.front().layout) != class_of(layout.id)) {
      misses += layout.id + "\n";
      continue;
    }
    ++classes;
    for (const FamilyWord& word : found.families) {
      ++families;
      if (is_right(word, layout))
        ++right;
      else
        misses += layout.id + ": " + word.family + " " + word.trait + ", " + word.why + "\n";
    }
  }
  INFO(misses);
  // 999 of 1,000, and 99 of 100.
  CHECK(classes * 1000 >= images * 999);
  CHECK(right * 100 >= families * 99);
}

TEST_CASE("noise is claimed by nobody") {
  Dice dice(19840815);
  int claimed = 0;
  for (int i = 0; i < 2000; ++i)
    if (!identify(random_noise(i % 2 == 0 ? 64 : 128, dice)).clear.empty()) ++claimed;
  CHECK(claimed <= 2);
}

TEST_CASE("recognising a layout comes to the one that identifying calls clear") {
  Dice dice(95);
  int clear = 0;
  for (const Layout& layout : all_layouts())
    for (int round = 0; round < 4; ++round) {
      Image image = random_image(layout, dice);
      if (round % 2 == 1) image.set(0x10, static_cast<std::uint8_t>(roll(dice, 256)));
      const Identification found = identify(image);
      const auto recognised = recognise(image);
      CHECK((recognised ? recognised->id : "") == found.clear);
      clear += recognised ? 1 : 0;
    }
  CHECK(clear > 20);
}

TEST_CASE("64 bytes read as 128 are recognised by their half") {
  const auto recognised = recognise(repeated(at_64_image()));
  REQUIRE(recognised);
  CHECK(recognised->id == "at");
}

TEST_CASE("values that look odd do not overturn a check that holds") {
  // 30 times F7h is 1CF2h.
  Image image = at_64_image();
  for (Address at = 0x10; at <= 0x2D; ++at) image.set(at, 0xF7);
  image.set(0x2E, 0x1C);
  image.set(0x2F, 0xF2);
  CHECK(identify(image).clear.starts_with("at"));
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
      identify(image, std::vector{made_up(R"("fields": [)" + fields + "]", "fitting")});
  REQUIRE_FALSE(found.candidates.empty());
  CHECK(found.candidates.front().layout == "fitting");
  CHECK(found.candidates.front().score > 50);
  CHECK(found.clear.empty());
}
