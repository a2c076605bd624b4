#include "check/sweep.h"

#include <catch2/catch.hpp>
#include <random>

using namespace rtcmend;

namespace {

Check check_over(Rule rule, std::vector<Covered> over, Address stored_at,
                 Order order = Order::high_first) {
  Check check;
  check.id = "any";
  check.rule = rule;
  check.over = std::move(over);
  check.stored_at = stored_at;
  check.order = order;
  return check;
}

/// One of every kind that the layout language has.
std::vector<Check> all_kinds() {
  const CrcModel arc{16, 0x8005, 0x0000, true, true, 0x0000};
  std::vector<Check> checks{
      check_over(SumRule{}, {{{0x10, 0x2D}, {}}}, 0x2E),
      check_over(SumRule{16, 0x1234, Sign::negated, {}}, {{{0x10, 0x1F}, {}}, {{0x30, 0x33}, {}}},
                 0x3A, Order::low_first),
      check_over(SumRule{8, 0x55, Sign::complemented, {}}, {{{0x0E, 0x3E}, {}}}, 0x3F),
      check_over(SumRule{16, 0, Sign::plain, Order::low_first}, {{{0x10, 0x2C}, {}}}, 0x2E),
      check_over(XorRule{0x5A}, {{{0x11, 0x22}, {}}}, 0x23),
      check_over(BalanceRule{0xAA}, {{{0x15, 0x3F}, {}}}, 0x14),
      check_over(CrcRule{crc_models::ibm_3740}, {{{0x10, 0x31}, {}}}, 0x32),
      check_over(CrcRule{arc}, {{{0x0E, 0x2F}, {}}}, 0x30, Order::low_first),
      check_over(CrcRule{arc}, {{{0x20, 0x2F}, {}}, {{0x10, 0x13}, {}}}, 0x30),
      check_over(SumRule{}, {{{0x10, 0x12}, {}}, {{0x14, 0x16}, Condition{0x18, 0x01, 0x01}}},
                 0x20)};
  checks.push_back(checks.front());
  checks.back().when = Condition{0x19, 0x80, 0x80};
  return checks;
}

std::vector<const Check*> pointers(const std::vector<Check>& checks) {
  std::vector<const Check*> all;
  for (const Check& check : checks) all.push_back(&check);
  return all;
}

void hold_against_evaluate(Sweep& sweep, const std::vector<Check>& checks, const Image& image) {
  const auto results = sweep(image);
  REQUIRE(results.size() == checks.size());
  for (std::size_t i = 0; i < checks.size(); ++i) {
    INFO("check " << i);
    const CheckResult plain = evaluate(checks[i], image);
    CHECK(results[i].check == &checks[i]);
    CHECK(results[i].counts == plain.counts);
    CHECK(results[i].stored == plain.stored);
    CHECK(results[i].computed == plain.computed);
    CHECK(results[i].blank == plain.blank);
    CHECK(results[i].unknown.empty());
  }
}

}  // namespace

TEST_CASE("one pass over an image gives what each check gives by itself") {
  const std::vector<Check> checks = all_kinds();
  Sweep sweep(pointers(checks));
  std::mt19937 random(1);
  for (int round = 0; round < 200; ++round) {
    std::vector<std::uint8_t> bytes(round % 2 == 0 ? 64 : 128);
    for (std::uint8_t& byte : bytes) byte = static_cast<std::uint8_t>(random());
    hold_against_evaluate(sweep, checks, Image(bytes));
  }
}

TEST_CASE("one pass sees blank areas as each check does") {
  const std::vector<Check> checks = all_kinds();
  Sweep sweep(pointers(checks));
  for (const int value : {0x00, 0xFF, 0x7F}) {
    std::vector<std::uint8_t> bytes(64, static_cast<std::uint8_t>(value));
    hold_against_evaluate(sweep, checks, Image(bytes));
    bytes[0x10] = 0x01;
    hold_against_evaluate(sweep, checks, Image(bytes));
  }
}

TEST_CASE("a sweep adds up 10-2D as a person would") {
  std::vector<std::uint8_t> bytes(64, 0);
  for (std::size_t at = 0x10; at <= 0x2D; ++at) bytes[at] = 0x11;  // 30 of them: 01FEh
  bytes[0x2E] = 0x01;
  bytes[0x2F] = 0xFE;
  const std::vector<Check> checks{check_over(SumRule{}, {{{0x10, 0x2D}, {}}}, 0x2E)};
  Sweep sweep(pointers(checks));
  const auto results = sweep(Image(bytes));
  CHECK(results[0].computed == 0x01FE);
  CHECK(results[0].ok());
}

TEST_CASE("a few checks by themselves give what each gives by itself") {
  std::mt19937 random(2);
  const std::vector<Check> all = all_kinds();
  for (std::size_t first = 0; first < all.size(); ++first) {
    const std::vector<Check> checks{all[first], all[(first + 1) % all.size()]};
    Sweep sweep(pointers(checks));
    for (int round = 0; round < 20; ++round) {
      std::vector<std::uint8_t> bytes(128, round == 0 ? 0x00 : 0xFF);
      if (round > 1)
        for (std::uint8_t& byte : bytes) byte = static_cast<std::uint8_t>(random());
      hold_against_evaluate(sweep, checks, Image(bytes));
    }
  }
}
