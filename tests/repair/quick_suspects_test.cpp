#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

#include "images/random_image.h"
#include "judge/made_up.h"
#include "repair/plain_suspects.h"
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

/// The field that comes first in the words of the quick search is one that the plain one found.
void hold_words(const Suspect& quick, const Suspect& plain) {
  if (!plain.id.starts_with("seal-")) return;
  const bool stale = quick.text.find(" is stale: ") != std::string::npos;
  CHECK(stale == !plain.text.empty());
  if (!stale) return;
  const std::string start = "change of ";
  const std::size_t at = quick.text.find(start) + start.size();
  const std::string first = quick.text.substr(at, quick.text.find(" from ", at) - at);
  CHECK(plain.text.find(" " + first + " from ") != std::string::npos);
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

TEST_CASE("the suspects are those that trying every change finds, whatever the layout",
          "[long][count]") {
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
    const bool mirror = layout.id == "crc+copy-29";
    if (layout.id != "at" && !mirror) continue;
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
    if (one.id == "at") layout = one;
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
    if (one.id == "at") layout = one;
  for (Field& field : layout.fields)
    if (field.id == "base_memory_kib" || field.id == "floppy_count") {
      field.least = -(std::int64_t{1} << 62);
      field.most = std::int64_t{1} << 62;
    }
  const auto all = suspects(with_bytes(at_64_image(), {{0x10, 0xC0}}), layout);
  REQUIRE_FALSE(all.empty());
  CHECK(all.front().id == "bit-10-7");
}

namespace {

/// Fields that follow each other in every way that the language has, under one check.
Layout of_followers(const std::string& check) {
  const auto number = [](const std::string& id, const std::string& at, const std::string& rest) {
    return field_entry(id, R"("at": ")" + at + R"(", )" + rest);
  };
  const std::string fields =
      number("lead", "10", R"("bits": [3, 0], "number": {})") + "," +
      number("copy", "11", R"("bits": [3, 0], "number": {}, "follows": {"same": "lead"})") + "," +
      number("scaled", "12", R"("bits": [3, 0], "number": {"scale": 2},
                                "follows": {"same": "lead"})") +
      "," + number("short", "13", R"("bits": [2, 0], "number": {"range": [0, 5]},
                               "follows": {"same": "lead"})") +
      "," +
      number("other", "14", R"("bits": [1, 0], "choice": {"0": "none", "1": "one", "2": "two"})") +
      "," + number("renamed", "15", R"("bits": [2, 1], "choice": {"0": "none", "2": "one"},
                                 "follows": {"same": "other"})") +
      "," + number("count", "16", R"("bits": [1, 0], "number": {},
                               "follows": {"count": ["lead", "other"], "least": 1})") +
      "," +
      number("any", "17", R"("bits": [7, 7], "flag": {}, "follows": {"any": ["lead", "other"]})") +
      "," + number("type", "18", R"("bits": [7, 4], "number": {},
                              "escape": {"when": 15, "at": "19", "range": [16, 47]})") +
      "," + number("type_copy", "1A", R"("bits": [7, 4], "number": {}, "follows": {"same": "type"},
                                   "escape": {"when": 15, "at": "1B", "range": [16, 47]})") +
      "," + number("type_less", "1C", R"("bits": [7, 4], "number": {}, "follows": {"same": "type"},
                                   "escape": {"when": 15, "at": "1D", "range": [16, 31]})") +
      "," + number("type_plain", "1E", R"("number": {}, "follows": {"same": "type"})") + "," +
      number("sometimes", "1F", R"("number": {}, "follows": {"same": "other_lead"},
                                   "when": {"at": "20", "bits": [0, 0], "is": 1})") +
      "," + number("other_lead", "20", R"("number": {})");
  return made_up(R"("fields": [)" + fields + R"(], "checks": [)" + check_entry("c", check) + "]");
}

}  // namespace

TEST_CASE("the suspects are those that trying every change finds, whatever follows what") {
  Dice dice(94);
  for (const char* check :
       {R"("sum": {"width": 16}, "over": ["10-2D"], "stored": {"at": "2E", "order": "low-first"})",
        R"("xor": {}, "over": ["10-2D"], "stored": {"at": "2E"})",
        R"("xor": {}, "over": ["10-1F", {"range": "20-2D", "when": {"at": "14", "bits": [0, 0],
           "is": 0}}], "stored": {"at": "2E"})"}) {
    const Layout layout = of_followers(check);
    for (int round = 0; round < 12; ++round) {
      INFO(check << " round " << round);
      Image image = random_noise(Image::small_size, dice);
      seal_one(layout.checks[0], image);
      damage(image, {0x10, 0x20}, dice);
      hold(image, layout);
    }
  }
}

TEST_CASE("a leader that was changed with all its followers, and not sealed, is found stale") {
  const Layout layout = of_followers(
      R"("sum": {"width": 16}, "over": ["10-2D"], "stored": {"at": "2E", "order": "low-first"})");
  Image image = Image(std::vector<std::uint8_t>(64, 0));
  image.set(0x26, 0x80);
  // type 3 everywhere: 30h + 30h + 30h + 03h; lead, other: 0, so that count is 1.
  for (const auto& [at, byte] : std::vector<std::pair<Address, std::uint8_t>>{
           {0x16, 1}, {0x18, 0x30}, {0x1A, 0x30}, {0x1C, 0x30}, {0x1E, 3}})
    image.set(at, byte);
  seal_one(layout.checks[0], image);
  // Now type 20, which only some of the followers can take.
  for (const auto& [at, byte] : std::vector<std::pair<Address, std::uint8_t>>{{0x18, 0xF0},
                                                                              {0x19, 20},
                                                                              {0x1A, 0xF0},
                                                                              {0x1B, 20},
                                                                              {0x1C, 0xF0},
                                                                              {0x1D, 20},
                                                                              {0x1E, 20}})
    image.set(at, byte);
  const auto all = suspects(image, layout);
  REQUIRE_FALSE(all.empty());
  CHECK(all.front().id == "seal-c");
  CHECK(all.front().text.find("is stale: it would hold before a change of type from 3 to 20") !=
        std::string::npos);
  hold(image, layout);
}
