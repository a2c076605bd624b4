#include "check/discrepancy.h"

#include <catch2/catch.hpp>
#include <random>

#include "check_images.h"

using namespace rtcmend;

namespace {

Check check_of(Rule rule, std::vector<Covered> over, Address stored_at, Order order) {
  return {"any", "", std::move(rule), std::move(over), stored_at, order, {}};
}

/// One of every kind that the layout language has.
std::vector<Check> all_kinds() {
  const CrcModel arc{16, 0x8005, 0x0000, true, true, 0x0000};
  const CrcModel one_sided{16, 0x3D65, 0x1234, true, false, 0xFFFF};
  const CrcModel even{16, 0x1020, 0xFFFF, false, false, 0x0000};
  const std::vector<Covered> near{{{0x10, 0x2D}, {}}}, two{{{0x20, 0x2C}, {}}, {{0x10, 0x13}, {}}};
  return {check_of(SumRule{}, near, 0x2E, Order::high_first),
          check_of(SumRule{16, 0x1234, Sign::negated, {}}, two, 0x3A, Order::low_first),
          check_of(SumRule{8, 0x55, Sign::complemented, {}}, near, 0x3F, Order::high_first),
          check_of(SumRule{16, 0, Sign::plain, Order::low_first}, two, 0x2E, Order::high_first),
          check_of(SumRule{16, 7, Sign::negated, Order::high_first}, two, 0x2E, Order::low_first),
          check_of(XorRule{0x5A}, two, 0x2F, Order::high_first),
          check_of(BalanceRule{0xAA}, near, 0x0E, Order::high_first),
          check_of(CrcRule{crc_models::ibm_3740}, near, 0x32, Order::high_first),
          check_of(CrcRule{crc_models::smbus}, two, 0x32, Order::high_first),
          check_of(CrcRule{arc}, two, 0x30, Order::low_first),
          check_of(CrcRule{one_sided}, near, 0x30, Order::high_first),
          check_of(CrcRule{even}, near, 0x30, Order::high_first)};
}

Image random_bytes(std::mt19937& random) {
  std::vector<std::uint8_t> bytes(64);
  for (std::uint8_t& byte : bytes) byte = static_cast<std::uint8_t>(random());
  return Image(bytes);
}

Image with_byte(Image image, Address at, unsigned value) {
  image.set(at, static_cast<std::uint8_t>(value));
  return image;
}

bool values_agree(const Check& check, const Image& image) {
  const CheckResult result = evaluate(check, image);
  return result.stored == result.computed;
}

}  // namespace

TEST_CASE("the gap of a sum is what is stored less what is computed") {
  // 10h-2Dh add up to 29Bh, and 0000h is stored: 10000h - 29Bh.
  const Check sum = check_of(SumRule{}, {{{0x10, 0x2D}, {}}}, 0x2E, Order::high_first);
  const Discrepancy gap(sum, unsealed_machine());
  CHECK(gap.now() == 0xFD65);
  CHECK(gap.moved(0xFD65, 0x10, 0x40, 0x41) == 0xFD64);
  CHECK(gap.moved(0xFD65, 0x2E, 0x00, 0x02) == 0xFF65);
  CHECK(gap.moved(0xFD65, 0x2F, 0x00, 0x02) == 0xFD67);
  CHECK(gap.moved(0xFD65, 0x30, 0x00, 0x02) == 0xFD65);
  CHECK(gap.rests_on(0x2D));
  CHECK_FALSE(gap.rests_on(0x30));
}

TEST_CASE("a gap that a byte can close names the value") {
  // 29Bh is computed, 0200h stored: the low check byte is to hold 9Bh.
  const Check sum = check_of(SumRule{}, {{{0x10, 0x2D}, {}}}, 0x2E, Order::high_first);
  const Discrepancy gap(sum, with_byte(unsealed_machine(), 0x2E, 0x02));
  CHECK(gap.closing(0x2F, 0x00) == std::vector<std::uint8_t>{0x9B});
  CHECK(gap.closing(0x2E, 0x02).empty());
  CHECK(gap.closing(0x30, 0x00).empty());
}

TEST_CASE("no byte closes a gap of one more than it holds") {
  const Check sum = check_of(SumRule{}, {{{0x10, 0x11}, {}}}, 0x2E, Order::high_first);
  Image image(std::vector<std::uint8_t>(64, 0));
  image.set(0x2E, 0x01);  // 0100h is stored
  CHECK(Discrepancy(sum, image).closing(0x10, 0x00).empty());
  image.set(0x11, 0x01);
  CHECK(Discrepancy(sum, image).closing(0x10, 0x00) == std::vector<std::uint8_t>{0xFF});
}

TEST_CASE("a changed byte moves the gap to where the check computed anew has it") {
  std::mt19937 random(11);
  for (const Check& check : all_kinds()) {
    INFO(describe(check));
    for (int round = 0; round < 20; ++round) {
      const Image image = random_bytes(random);
      const Discrepancy gap(check, image);
      for (int at = 0x0E; at < 0x40; ++at) {
        const auto address = static_cast<Address>(at);
        const auto to = static_cast<std::uint8_t>(random());
        const Discrepancy after(check, with_byte(image, address, to));
        CHECK(gap.moved(gap.now(), address, image[address], to) == after.now());
      }
    }
  }
}

TEST_CASE("the values that close a gap are those with which the check comes out") {
  std::mt19937 random(12);
  for (const Check& check : all_kinds()) {
    INFO(describe(check));
    const Image image = random_bytes(random);
    // One byte made wrong in an image that holds, so that there is something to find.
    Image sealed = image;
    seal_one(check, sealed);
    const Image damaged = with_byte(sealed, 0x21, sealed[0x21] ^ 0x14U);
    for (const Image& tried : {image, damaged}) {
      const Discrepancy gap(check, tried);
      for (int at = 0x0E; at < 0x40; ++at) {
        const auto address = static_cast<Address>(at);
        std::vector<std::uint8_t> plainly;
        for (unsigned value = 0; value < 256; ++value)
          if (values_agree(check, with_byte(tried, address, value)))
            plainly.push_back(static_cast<std::uint8_t>(value));
        CHECK(gap.closing(address, tried[address]) == plainly);
      }
    }
  }
}
