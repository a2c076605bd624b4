#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "base/error.h"
#include "check/check.h"
#include "check/check_images.h"

using namespace rtcmend;

namespace {

using Indexes = std::vector<std::size_t>;

std::string refusal_to_seal(const Check& check, Image image) {
  try {
    seal_one(check, image);
  } catch (const Error& error) {
    return error.what();
  }
  return "sealed";
}

std::string refusal_to_order(const std::vector<Check>& checks) {
  try {
    sealing_order(checks, "circle.json");
  } catch (const Error& error) {
    return error.what();
  }
  return "ordered";
}

}  // namespace

TEST_CASE("sealing stores the sum of 10-2D, 29Bh, in the order of the check and nothing else") {
  Image image = unsealed_machine();
  seal_one(at_sum(), image);
  Image expected = unsealed_machine();
  expected.set(0x2E, 0x02);
  expected.set(0x2F, 0x9B);
  CHECK(image == expected);

  Check low_first = at_sum();
  low_first.order = Order::low_first;
  seal_one(low_first, image);
  expected.set(0x2E, 0x9B);
  expected.set(0x2F, 0x02);
  CHECK(image == expected);
}

TEST_CASE("sealing stores the CRC of 10-31 with the high byte at 32") {
  Image image = unsealed_machine();
  seal_one(crc_check(), image);
  CHECK(image.at(0x32) == 0x26);  // Python's binascii.crc_hqx: 262Eh
  CHECK(image.at(0x33) == 0x2E);
}

TEST_CASE("sealing a balance brings the sum to its target") {
  const Check check{"balance-14-3f",   "", BalanceRule{0xAA}, {{{0x14, 0x3E}, {}}}, 0x3F,
                    Order::high_first, {}};
  Image image = unsealed_machine();
  seal_one(check, image);
  CHECK(image.at(0x3F) == 0x3F);  // AAh - (41 + 80 + 02 + 80 + 01 + 27 = 16Bh) = 3Fh
}

TEST_CASE("an unknown stored byte is no obstacle to sealing") {
  Image image = unsealed_machine();
  image.forget(0x2E);
  image.forget(0x2F);
  seal_one(at_sum(), image);
  CHECK(image.at(0x2E) == 0x02);
  CHECK(image.at(0x2F) == 0x9B);
}

TEST_CASE("sealing over unknown bytes is refused, naming them") {
  Image image = unsealed_machine();
  image.forget(0x11);
  image.forget(0x20);
  image.forget(0x21);
  image.forget(0x2F);
  CHECK(refusal_to_seal(at_sum(), image) ==
        "check sum-10-2d: cannot be computed, because what it covers is not all known: 11h, "
        "20h-21h");
}

TEST_CASE("a condition that cannot be judged is refused, naming its byte") {
  Check check = at_sum();
  check.when = Condition{0x3F, 0x01, 0x01};
  Image image = unsealed_machine();
  image.forget(0x3F);
  CHECK(refusal_to_seal(check, image) ==
        "check sum-10-2d: cannot be computed, because what it covers is not all known: 3Fh");
}

TEST_CASE("a check that does not count is not sealed") {
  Check check = at_sum();
  check.when = Condition{0x3F, 0x01, 0x01};
  Image image = unsealed_machine();
  seal_one(check, image);
  CHECK(image == unsealed_machine());
}

TEST_CASE("checks that do not touch each other are sealed as listed") {
  const Check second = small_sum("b", {{{0x34, 0x3D}, {}}}, 0x3E);
  CHECK(sealing_order({at_sum(), second}, "x") == Indexes{0, 1});
  CHECK(sealing_order({second, at_sum()}, "x") == Indexes{0, 1});
  CHECK(sealing_order({}, "x").empty());
}

TEST_CASE("a check that covers another's stored bytes comes after it") {
  const Check outer = small_sum("outer", {{{0x30, 0x3E}, {}}}, 0x3F);
  const Check middle = small_sum("middle", {{{0x20, 0x2F}, {}}}, 0x30);
  CHECK(sealing_order({outer, middle, at_sum()}, "x") == Indexes{2, 1, 0});
  CHECK(sealing_order({at_sum(), outer, middle}, "x") == Indexes{0, 2, 1});

  Image image = unsealed_machine();
  const std::vector<Check> checks{outer, middle, at_sum()};
  for (const std::size_t i : sealing_order(checks, "x")) seal_one(checks[i], image);
  CHECK(image.at(0x30) == 0x9D);  // 02 + 9B
  CHECK(image.at(0x3F) == 0x9D);
  for (const Check& check : checks) CHECK(evaluate(check, image).ok());
}

TEST_CASE("covering only the second stored byte of a pair counts as well") {
  const Check outer = small_sum("outer", {{{0x2F, 0x2F}, {}}}, 0x3F);
  CHECK(sealing_order({outer, at_sum()}, "x") == Indexes{1, 0});
}

TEST_CASE("a check whose condition asks about another's stored bytes comes after it") {
  const Condition asks{0x2E, 0x01, 0x00};
  const Check by_range = small_sum("r", {{{0x34, 0x3D}, asks}}, 0x3E);
  Check by_check = small_sum("c", {{{0x34, 0x3D}, {}}}, 0x3E);
  by_check.when = asks;
  CHECK(sealing_order({by_range, at_sum()}, "x") == Indexes{1, 0});
  CHECK(sealing_order({by_check, at_sum()}, "x") == Indexes{1, 0});
}

TEST_CASE("checks that cover each other in a circle are refused by name, others left out") {
  const Check after = small_sum("after", {{{0x31, 0x31}, {}}}, 0x38);
  const Check a = small_sum("a", {{{0x31, 0x31}, {}}}, 0x30);
  const Check b = small_sum("b", {{{0x32, 0x32}, {}}}, 0x31);
  const Check c = small_sum("c", {{{0x30, 0x30}, {}}}, 0x32);
  CHECK(refusal_to_order({at_sum(), a, b}) == "ordered");
  CHECK(refusal_to_order({after, at_sum(), a, b, c}) ==
        "circle.json: the checks c, a, b cover each other's stored bytes in a circle, so that none "
        "can be sealed first");
}

TEST_CASE("a check that covers its own stored bytes is refused") {
  CHECK(refusal_to_order({small_sum("own", {{{0x30, 0x3F}, {}}}, 0x3E)}) ==
        "circle.json: the check own covers its own stored bytes");
}
