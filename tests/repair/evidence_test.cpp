#include <algorithm>
#include <catch2/catch.hpp>

#include "judge/examining.h"
#include "repair/suspects.h"
#include "support/sound_images.h"

using namespace rtcmend;

// What is known beside the bytes: a text column, further dumps, an earlier one, who wrote it down.

namespace {

std::vector<Suspect> weighed(const Image& image, const Provenance& provenance) {
  return suspects(image, layout_of("at"), provenance);
}

/// How likely the repair of this byte alone is said to be.
double odds_of(const std::vector<Suspect>& all, const Patch& patch) {
  for (const Suspect& suspect : all)
    if (suspect.changes == std::vector<Patch>{patch}) return suspect.odds;
  return 0;
}

/// A sound image whose maker's byte at 28h is the letter U (55h): the sum at 2Eh is 0267h + 55h.
Image with_a_letter() {
  return with_bytes(at_64_image(), {{0x28, 0x55}, {0x2E, 0x02}, {0x2F, 0xBC}});
}

Image flipped(const Image& image, Address at, unsigned bit) {
  return with_bytes(image, {{at, static_cast<std::uint8_t>(image[at] ^ (1U << bit))}});
}

}  // namespace

TEST_CASE("the image of these tests is sound") {
  CHECK(weighed(with_a_letter(), {}).empty());
}

TEST_CASE("a text column that still shows the right letter puts its reading first") {
  const Image typed = with_bytes(with_a_letter(), {{0x28, 0x56}});
  Provenance by_hand{Origin::hand};
  const double without = odds_of(weighed(typed, by_hand), {0x28, 0x56, 0x55});
  by_hand.text = std::string(0x40, '\0');
  by_hand.text[0x28] = 'U';
  const auto all = weighed(typed, by_hand);
  REQUIRE_FALSE(all.empty());
  CHECK(all.front().changes == std::vector<Patch>{{0x28, 0x56, 0x55}});
  CHECK(all.front().odds > 0.9);
  CHECK(all.front().odds > without + 0.05);
}

TEST_CASE("two slips, each with its right letter beside it, are found together") {
  const Image sound = with_bytes(with_a_letter(), {{0x2A, 0x41}, {0x2F, 0xFD}});
  REQUIRE(weighed(sound, {}).empty());
  const Image typed = with_bytes(sound, {{0x28, 0x56}, {0x2A, 0x47}});
  Provenance by_hand{Origin::hand};
  by_hand.text = std::string(0x40, '\0');
  by_hand.text[0x28] = 'U';
  by_hand.text[0x2A] = 'A';
  const auto all = weighed(typed, by_hand);
  REQUIRE_FALSE(all.empty());
  CHECK(all.front().id == "slips-28-55+2A-41");
}

TEST_CASE(
    "neighbours exchanged, which a sum does not see, are put back where letters speak for it") {
  // 28h-29h hold "UA" and were typed "AU"; 10h, 40h, was typed 46h.
  const Image sound = with_bytes(with_a_letter(), {{0x29, 0x41}, {0x2F, 0xFD}});
  REQUIRE(weighed(sound, {}).empty());
  const Image typed = with_bytes(sound, {{0x28, 0x41}, {0x29, 0x55}, {0x10, 0x46}});
  Provenance by_hand{Origin::hand};
  by_hand.text = std::string(0x40, '\0');
  by_hand.text[0x28] = 'U';
  by_hand.text[0x29] = 'A';
  by_hand.text[0x10] = '@';
  const auto all = weighed(typed, by_hand);
  REQUIRE_FALSE(all.empty());
  CHECK(repaired(typed, all.front()) == sound);
}

TEST_CASE("the one bit that wavers between two dumps is the first suspect, and nearly certain") {
  const Image sound = with_a_letter(), first = flipped(sound, 0x28, 4);
  const auto all = weighed(first, {Origin::machine, {}, {sound}, {}});
  REQUIRE_FALSE(all.empty());
  CHECK(all.front().id == "vote-28-55");
  CHECK(repaired(first, all.front()) == sound);
  CHECK(all.front().odds > 0.95);
}

TEST_CASE("of three dumps the most decide each bit, though none of them is right") {
  const Image sound = with_a_letter();
  const Image first = flipped(sound, 0x12, 0), second = flipped(sound, 0x28, 4),
              third = flipped(sound, 0x15, 7);
  const auto all = weighed(first, {Origin::machine, {}, {second, third}, {}});
  REQUIRE_FALSE(all.empty());
  CHECK(repaired(first, all.front()) == sound);
}

TEST_CASE("dumps that agree are no vote: the suspects are those of one") {
  const Image dump = flipped(with_a_letter(), 0x28, 4);
  for (const Suspect& suspect : weighed(dump, {Origin::machine, {}, {dump}, {}}))
    CHECK_FALSE(suspect.id.starts_with("vote-"));
}

TEST_CASE("what an earlier dump had there is evidence for it") {
  const Image sound = with_a_letter(), dump = flipped(sound, 0x28, 4);
  const Patch back{0x28, 0x45, 0x55};
  const double without = odds_of(weighed(dump, {}), back);
  const auto all = weighed(dump, {Origin::machine, {}, {}, sound});
  REQUIRE_FALSE(all.empty());
  CHECK(all.front().changes == std::vector<Patch>{back});
  CHECK(all.front().odds > 0.8);
  CHECK(without < 0.3);
}

TEST_CASE(
    "to seal what somebody typed is not offered before smaller causes that are likelier together") {
  // 15h, 80h, was typed 88h: to seal it would make 648 KiB of 640 for good.
  const auto all = weighed(with_bytes(with_a_letter(), {{0x15, 0x88}}), {Origin::hand, {}, {}, {}});
  REQUIRE(all.size() > 1);
  CHECK_FALSE(all.front().id.starts_with("seal-"));
  double smaller = 0, sealing = 0;
  for (const Suspect& suspect : all)
    (suspect.id.starts_with("seal-") ? sealing : smaller) += suspect.odds;
  CHECK(sealing > 0);
  CHECK(smaller > sealing);
}
