#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

#include "judge/plain_suspects.h"
#include "judge/random_image.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

/// What must be the same: order is left out, for equally likely ones may change places by the last
/// digit of a sum.
using Told = std::map<std::string, const Suspect*>;

Told by_id(const std::vector<Suspect>& all) {
  Told told;
  for (const Suspect& suspect : all) told[suspect.id] = &suspect;
  return told;
}

/// Every field that the plain search found to be stale comes first in the words of the quick one.
void hold_words(const Suspect& quick, const Suspect& plain) {
  if (!plain.id.starts_with("seal-")) return;
  const bool stale = quick.text.find(" is stale: ") != std::string::npos;
  CHECK(stale == !plain.text.empty());
  if (!stale) return;
  const auto first = plain.text.substr(0, plain.text.find(" from "));
  CHECK(quick.text.find("change of" + first + " from ") != std::string::npos);
}

void hold(const Image& image, const Layout& layout) {
  const std::vector<Suspect> quick = suspects(image, layout), plain = plain_suspects(image, layout);
  const Told told_quick = by_id(quick), told_plain = by_id(plain);
  REQUIRE(quick.size() == plain.size());
  REQUIRE(told_quick.size() == quick.size());
  for (const auto& [id, expected] : told_plain) {
    INFO(id);
    const auto found = told_quick.find(id);
    REQUIRE(found != told_quick.end());
    CHECK(found->second->changes == expected->changes);
    CHECK(found->second->mends == expected->mends);
    CHECK(found->second->odds == Approx(expected->odds).epsilon(1e-9));
    hold_words(*found->second, *expected);
  }
  for (std::size_t i = 0; i < quick.size(); ++i)
    CHECK(quick[i].odds == Approx(plain[i].odds).epsilon(1e-9));
}

void damage(Image& image, const Range& range, Dice& dice) {
  const auto at =
      static_cast<Address>(range.first + roll(dice, static_cast<unsigned>(range.size())));
  const unsigned kind = roll(dice, 3);
  if (kind == 0)
    image.set(at, static_cast<std::uint8_t>(image[at] ^ (1U << roll(dice, 8))));
  else
    image.set(at, static_cast<std::uint8_t>(roll(dice, 256)));
}

/// At least one byte that a check covers is damaged, perhaps one of each check.
Image damaged(Image image, const Layout& layout, Dice& dice) {
  for (const Check& check : layout.checks)
    if (&check == &layout.checks.front() || once_in(dice, 2))
      damage(image, check.over.front().range, dice);
  return image;
}

}  // namespace

TEST_CASE("the suspects are those that trying every change finds, whatever the layout", "[long]") {
  Dice dice(91);
  for (const Layout& layout : all_layouts()) {
    INFO(layout.id);
    if (layout.checks.empty()) continue;
    for (int round = 0; round < 6; ++round)
      hold(damaged(random_image(layout, dice), layout, dice), layout);
  }
}

TEST_CASE("the suspects are those that trying every change finds, field by field") {
  // A field that others follow, one with an escape byte, one in two bytes, and a copy.
  for (const Layout& layout : all_layouts()) {
    const bool mirror = layout.id == "crc-64-mirror";
    if (layout.id != "at-64" && !mirror) continue;
    Dice dice(92);
    Image image = random_image(layout, dice);
    for (const int at :
         mirror ? std::vector<int>{0x20, 0x3A} : std::vector<int>{0x10, 0x14, 0x19}) {
      INFO(layout.id << " at " << at);
      Image changed = image;
      const auto address = static_cast<Address>(at);
      changed.set(address, static_cast<std::uint8_t>(image[address] ^ 0x11));
      hold(changed, layout);
    }
  }
}

TEST_CASE(
    "the suspects are those that trying every change finds, where a byte decides what counts") {
  Dice dice(93);
  Layout layout;
  for (const Layout& one : all_layouts())
    if (one.id == "at-64") layout = one;
  // 21-2D count only when bit 1 of 14h (a coprocessor: RBIL61 CMOS 14h) is set.
  layout.checks.front().over = {{{0x10, 0x20}, {}}, {{0x21, 0x2D}, Condition{0x14, 0x02, 0x02}}};
  for (int round = 0; round < 12; ++round) {
    Image image = random_image(layout, dice);
    damage(image, {0x10, 0x18}, dice);
    hold(image, layout);
  }
}

TEST_CASE("a field whose bounds are wider than any chip has no values to try") {
  Layout layout;
  for (const Layout& one : all_layouts())
    if (one.id == "at-64") layout = one;
  for (Field& field : layout.fields)
    if (field.id == "base_memory_kib" || field.id == "floppy_count") {
      field.least = -(std::int64_t{1} << 62);
      field.most = std::int64_t{1} << 62;
    }
  const auto all = suspects(with_bytes(at_64_image(), {{0x10, 0xC0}}), layout);
  REQUIRE_FALSE(all.empty());
  CHECK(all.front().id == "bit-10-7");
}
