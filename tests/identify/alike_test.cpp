#include "identify/alike.h"

#include <catch2/catch.hpp>

#include "judge/made_up.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

const char* const sum =
    R"("sum": {"width": 16}, "stored": {"at": "2E", "order": "high-first"}, "over": )";

std::string fields(const std::string& all) {
  return R"("fields": [)" + all + R"(], "checks": [)";
}

const std::string type = field_entry("type", R"("at": "10", "number": {})");

Layout with_check(const std::string& id, const std::string& rest, const std::string& all = type) {
  return made_up(fields(all) + check_entry("first", rest) + "]", id);
}

Layout plain() {
  return with_check("plain", sum + std::string(R"(["10-2D"])"));
}

std::string settles(const Layout& one, const Layout& other, const Image& image = at_64_image()) {
  const auto sentences = what_settles({&one, &other}, image);
  REQUIRE(sentences.size() == 1);
  return sentences[0];
}

}  // namespace

TEST_CASE("a layout with more fields can be stood in for, one with fewer or others cannot") {
  const std::string more = type + "," + field_entry("shadow", R"("at": "33", "number": {})");
  const Layout special = with_check("special", sum + std::string(R"(["10-2D"])"), more);
  CHECK(can_stand_in(plain(), special, at_64_image()));
  CHECK_FALSE(can_stand_in(special, plain(), at_64_image()));
  CHECK(settles(plain(), special) ==
        "special also names 33h: the machine's own setup tells whether it keeps such things "
        "there.");
}

TEST_CASE("sums that differ over bytes of no field are as good where they come to the same") {
  const Layout shorter = with_check("shorter", sum + std::string(R"(["10-2C"])"));
  CHECK(can_stand_in(plain(), shorter, at_64_image()));
  CHECK(settles(plain(), shorter) ==
        "plain and shorter differ in whether 2Dh counts in a check, and that makes no difference "
        "here: a dump in which it holds something else would tell.");
  CHECK_FALSE(can_stand_in(plain(), shorter, with_bytes(at_64_image(), {{0x2D, 0x01}})));
  CHECK_FALSE(can_stand_in(plain(), shorter, without(at_64_image(), {0x2D, 0x2D})));
}

TEST_CASE("sums that differ over a byte of a field, and sums of pairs, cannot stand in") {
  const std::string last = type + "," + field_entry("last", R"("at": "2D", "number": {})");
  const Layout own = with_check("own", sum + std::string(R"(["10-2D"])"), last);
  const Layout shorter = with_check("shorter", sum + std::string(R"(["10-2C"])"), last);
  CHECK_FALSE(can_stand_in(own, shorter, at_64_image()));
  const std::string pairs =
      R"("sum": {"width": 16, "pairs": "low-first"}, "stored": {"at": "2E", "order": "high-first"}, "over": )";
  CHECK_FALSE(can_stand_in(with_check("one", pairs + R"(["10-2D"])"),
                           with_check("two", pairs + R"(["10-2B"])"), at_64_image()));
}

TEST_CASE("a check elsewhere, in the other order or by another rule is no counterpart") {
  const auto stands_in = [](const std::string& rest) {
    return can_stand_in(plain(), with_check("other", rest), at_64_image());
  };
  CHECK_FALSE(stands_in(
      R"("sum": {"width": 16}, "stored": {"at": "30", "order": "high-first"}, "over": ["10-2D"])"));
  CHECK_FALSE(stands_in(
      R"("sum": {"width": 16}, "stored": {"at": "2E", "order": "low-first"}, "over": ["10-2D"])"));
  CHECK_FALSE(stands_in(R"("sum": {"width": 16, "start": "0001"},
                           "stored": {"at": "2E", "order": "high-first"}, "over": ["10-2D"])"));
}

TEST_CASE("a further check over an empty area is silent while it agrees, or does not count") {
  const auto further = [](const std::string& rest) {
    return made_up(fields(type) + check_entry("first", sum + std::string(R"(["10-2D"])")) + "," +
                       check_entry("second", rest) + "]",
                   "further");
  };
  const Layout empty = further(R"("sum": {"width": 8}, "over": ["34-3C"], "stored": {"at": "3D"})");
  CHECK(can_stand_in(plain(), empty, at_64_image()));
  CHECK(settles(plain(), empty) ==
        "further also keeps a check over 34h-3Ch, where every byte is 00h: a dump taken once the "
        "machine keeps something there would tell.");
  CHECK_FALSE(can_stand_in(plain(), empty, with_bytes(at_64_image(), {{0x3D, 0x01}})));
  CHECK_FALSE(can_stand_in(plain(), empty, with_bytes(at_64_image(), {{0x34, 5}, {0x3D, 5}})));
  const Layout conditional = further(
      R"("sum": {"width": 8}, "over": ["34-3C"], "stored": {"at": "3D"},
         "when": {"at": "3F", "is": 1})");
  CHECK(can_stand_in(plain(), conditional, with_bytes(at_64_image(), {{0x3D, 0x01}})));
}

TEST_CASE("layouts that read the same bytes differently are told apart by what is fitted") {
  const Layout other = with_check("other", sum + std::string(R"(["10-2D"])"),
                                  field_entry("kind", R"("at": "10", "number": {"scale": 2})"));
  CHECK(settles(plain(), other) ==
        "plain and other read the same bytes differently: compare what both say "
        "with what is fitted.");
}
