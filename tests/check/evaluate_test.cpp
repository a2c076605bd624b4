#include <catch2/catch.hpp>
#include <vector>

#include "check/check.h"
#include "check/check_images.h"

using namespace rtcmend;

namespace {

// The machine with the sum it needs: 029Bh.
Image summed_machine() {
  Image image = unsealed_machine();
  image.set(0x2E, 0x02);
  image.set(0x2F, 0x9B);
  return image;
}

// The machine with the CRC it needs: 262Eh by Python's binascii.crc_hqx.
Image crc_machine() {
  Image image = unsealed_machine();
  image.set(0x32, 0x26);
  image.set(0x33, 0x2E);
  return image;
}

Addresses addresses_of(const Check& check) {
  Addresses all = covered_addresses(check);
  for (const Address at : stored_addresses(check)) all.push_back(at);
  return all;
}

// How many of the one-bit changes to covered and stored bytes pass unseen.
int unseen_changes(const Check& check, const Image& good) {
  int unseen = 0;
  for (const Address at : addresses_of(check)) {
    for (unsigned bit = 0; bit < 8; ++bit) {
      Image changed = good;
      changed.set(at, static_cast<std::uint8_t>(good[at] ^ (1U << bit)));
      if (evaluate(check, changed).ok()) ++unseen;
    }
  }
  return unseen;
}

}  // namespace

TEST_CASE("a sum over 10-2D with the high byte first at 2E holds") {
  const Check check = at_sum();
  const CheckResult result = evaluate(check, summed_machine());
  CHECK(result.check == &check);
  CHECK(result.counts);
  CHECK(result.stored == 0x029B);
  CHECK(result.computed == 0x029B);
  CHECK(result.unknown.empty());
  CHECK_FALSE(result.blank);
  CHECK(result.ok());
}

TEST_CASE("a CRC over 10-31 with the high byte at 32 holds") {
  const Check check = crc_check();
  const CheckResult result = evaluate(check, crc_machine());
  CHECK(result.stored == 0x262E);
  CHECK(result.computed == 0x262E);
  CHECK(result.ok());
}

TEST_CASE("changing any one bit of the covered or stored bytes breaks a sum and a CRC") {
  CHECK(unseen_changes(at_sum(), summed_machine()) == 0);
  CHECK(unseen_changes(crc_check(), crc_machine()) == 0);
}

TEST_CASE("the low byte may stand first") {
  Check check = at_sum();
  check.order = Order::low_first;
  CHECK_FALSE(evaluate(check, summed_machine()).ok());
  Image image = summed_machine();
  image.set(0x2E, 0x9B);
  image.set(0x2F, 0x02);
  CHECK(evaluate(check, image).stored == 0x029B);
  CHECK(evaluate(check, image).ok());
}

TEST_CASE("an 8-bit check has one stored byte, a 16-bit check two") {
  CHECK(stored_addresses(at_sum()) == Addresses{0x2E, 0x2F});
  CHECK(stored_addresses(small_sum("s", {{{0x34, 0x3D}, {}}}, 0x3E)) == Addresses{0x3E});
}

TEST_CASE("several ranges are covered in the order listed, with the hole between left out") {
  const Check check = small_sum("s", {{{0x18, 0x19}, {}}, {{0x14, 0x15}, {}}}, 0x3E);
  CHECK(covered_addresses(check) == Addresses{0x18, 0x19, 0x14, 0x15});
  CHECK(evaluate(check, unsealed_machine()).computed == 0xE9);  // 01 + 27 + 41 + 80

  Check crc = crc_check();
  crc.over = {{{0x18, 0x19}, {}}, {{0x14, 0x15}, {}}};
  CHECK(evaluate(crc, unsealed_machine()).computed == 0x5E57);  // binascii.crc_hqx of 01 27 41 80
}

TEST_CASE("a range counts only when its condition holds") {
  const Condition disk_fitted{0x12, 0xF0, 0xF0};
  const Check check = small_sum("s", {{{0x10, 0x10}, {}}, {{0x19, 0x19}, disk_fitted}}, 0x3E);
  Image image = unsealed_machine();
  CHECK(evaluate(check, image).computed == 0x67);  // 40 + 27
  image.set(0x12, 0x20);
  CHECK(evaluate(check, image).computed == 0x40);
  CHECK(covered_addresses(check) == Addresses{0x10, 0x19});
}

TEST_CASE("a range whose condition does not hold may be unknown") {
  const Condition disk_fitted{0x12, 0xF0, 0xF0};
  const Check check = small_sum("s", {{{0x10, 0x10}, {}}, {{0x19, 0x19}, disk_fitted}}, 0x3E);
  Image image = unsealed_machine();
  image.set(0x12, 0x20);
  image.forget(0x19);
  CHECK(evaluate(check, image).computed == 0x40);
  CHECK(evaluate(check, image).unknown.empty());
}

TEST_CASE("a condition on an unknown byte leaves the check unjudged and names the byte") {
  const Check check =
      small_sum("s", {{{0x10, 0x10}, {}}, {{0x19, 0x19}, Condition{0x12, 0xF0, 0xF0}}}, 0x3E);
  Image image = unsealed_machine();
  image.forget(0x12);
  const CheckResult result = evaluate(check, image);
  CHECK_FALSE(result.computed);
  CHECK(result.unknown == Addresses{0x12});
  CHECK_FALSE(result.ok());
}

TEST_CASE("a check counts only when its condition holds") {
  Check check = at_sum();
  check.when = Condition{0x3F, 0x01, 0x01};
  Image image = unsealed_machine();
  CHECK_FALSE(evaluate(check, image).counts);
  CHECK(evaluate(check, image).ok());

  image.set(0x3F, 0xFF);
  CHECK(evaluate(check, image).counts);
  CHECK_FALSE(evaluate(check, image).ok());

  image.forget(0x3F);
  CHECK(evaluate(check, image).counts);
  CHECK_FALSE(evaluate(check, image).computed);
  CHECK(evaluate(check, image).unknown == Addresses{0x3F});
  CHECK_FALSE(evaluate(check, image).ok());
}

TEST_CASE("unknown covered and stored bytes are listed in ascending order") {
  Image image = summed_machine();
  image.forget(0x2F);
  image.forget(0x20);
  image.forget(0x11);
  const Check check = at_sum();
  const CheckResult result = evaluate(check, image);
  CHECK_FALSE(result.stored);
  CHECK_FALSE(result.computed);
  CHECK(result.unknown == Addresses{0x11, 0x20, 0x2F});
  CHECK_FALSE(result.blank);
  CHECK_FALSE(result.ok());
}

TEST_CASE("an unknown stored byte leaves the computed value known") {
  Image image = summed_machine();
  image.forget(0x2E);
  const Check check = at_sum();
  const CheckResult result = evaluate(check, image);
  CHECK_FALSE(result.stored);
  CHECK(result.computed == 0x029B);
  CHECK(result.unknown == Addresses{0x2E});
  CHECK_FALSE(result.ok());
}

TEST_CASE("bytes past the end of a 64-byte image are unknown") {
  const Check check = small_sum("s", {{{0x3F, 0x40}, {}}}, 0x7F);
  const CheckResult result = evaluate(check, unsealed_machine());
  CHECK_FALSE(result.computed);
  CHECK(result.unknown == Addresses{0x40, 0x7F});
}

TEST_CASE("blank bytes prove nothing, even where the arithmetic agrees") {
  const Image zeros(std::vector<std::uint8_t>(64, 0x00));
  const Check sum = at_sum();
  const CheckResult zero_sum = evaluate(sum, zeros);
  CHECK(zero_sum.stored == zero_sum.computed);
  CHECK(zero_sum.blank);
  CHECK_FALSE(zero_sum.ok());

  // Thirty times FFh make 1DE2h, stored as it should be.
  Image ones(std::vector<std::uint8_t>(64, 0xFF));
  ones.set(0x2E, 0x1D);
  ones.set(0x2F, 0xE2);
  CHECK(evaluate(sum, ones).stored == 0x1DE2);
  CHECK(evaluate(sum, ones).computed == 0x1DE2);
  CHECK(evaluate(sum, ones).blank);
  CHECK_FALSE(evaluate(sum, ones).ok());

  // A CRC that starts from FFFFh is not 0 over zeros: A9B8h by Python's binascii.crc_hqx.
  Image crc_of_zeros = zeros;
  crc_of_zeros.set(0x32, 0xA9);
  crc_of_zeros.set(0x33, 0xB8);
  const Check crc = crc_check();
  CHECK(evaluate(crc, crc_of_zeros).stored == evaluate(crc, crc_of_zeros).computed);
  CHECK_FALSE(evaluate(crc, crc_of_zeros).ok());
}

TEST_CASE("a balance over blank bytes proves nothing") {
  const Check check{"balance-14-3f",   "", BalanceRule{0xAA}, {{{0x14, 0x3E}, {}}}, 0x3F,
                    Order::high_first, {}};
  Image image(std::vector<std::uint8_t>(64, 0x00));
  image.set(0x3F, 0xAA);
  CHECK(evaluate(check, image).stored == 0xAA);
  CHECK(evaluate(check, image).computed == 0xAA);
  CHECK_FALSE(evaluate(check, image).ok());

  image.set(0x20, 0x0A);
  image.set(0x3F, 0xA0);
  CHECK(evaluate(check, image).ok());
}

TEST_CASE("one byte that differs makes bytes not blank") {
  Image image(std::vector<std::uint8_t>(64, 0x00));
  image.set(0x20, 0x01);
  image.set(0x2F, 0x01);
  const Check check = at_sum();
  CHECK_FALSE(evaluate(check, image).blank);
  CHECK(evaluate(check, image).ok());
}

TEST_CASE("a check with no range that counts does not count itself") {
  const Check check = small_sum("s", {{{0x10, 0x10}, Condition{0x12, 0xFF, 0x00}}}, 0x3E);
  const CheckResult result = evaluate(check, unsealed_machine());
  CHECK_FALSE(result.counts);
  CHECK(result.computed == std::nullopt);
  CHECK(result.ok());
}
