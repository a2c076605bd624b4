#include "audit/recall.h"

#include <catch2/catch.hpp>

using namespace rtcmend;

TEST_CASE("an answer is remembered as long as there is room") {
  Recall<int> recall(64, 10);
  int asked = 0;
  const auto answer = [&](std::uint64_t key) {
    return recall(key, [&] { return ++asked, static_cast<int>(key) * 3; });
  };
  for (std::uint64_t key = 0; key < 8; ++key) answer(key);
  const int first = asked;
  for (std::uint64_t key = 0; key < 8; ++key) CHECK(answer(key) == static_cast<int>(key) * 3);
  CHECK(first == 8);
  CHECK(asked < 16);
}

TEST_CASE("the answers for all bytes have room beside each other") {
  Recall<int> recall(8);
  int asked = 0;
  for (int round = 0; round < 3; ++round)
    for (unsigned byte = 0; byte < 256; ++byte)
      CHECK(recall(byte, [&] { return ++asked, static_cast<int>(byte) + 7; }) ==
            static_cast<int>(byte) + 7);
  CHECK(asked == 256);
}

TEST_CASE("what does not fit is asked for again, and never answered wrongly") {
  Recall<std::uint64_t> recall(64, 4);
  for (int round = 0; round < 3; ++round)
    for (std::uint64_t key = 1; key < 500; ++key) {
      const std::uint64_t spread = key * 0x123456789ABCDEFU;
      CHECK(recall(spread, [&] { return ~spread; }) == ~spread);
    }
}

TEST_CASE("a key tells images apart by the bits that it rests on, and by no others") {
  // Bits 7 to 6 of byte 14h, bit 0 of byte 15h, all of byte 3Fh.
  const auto bits = DecidingBits::of({{0x3F}, {0x14, 7, 6}, {0x15, 0, 0}, {0x15, 0, 0}});
  REQUIRE(bits);
  CHECK(bits->width() == 11);

  Image image(64);
  for (unsigned i = 0; i < 64; ++i) image.set(static_cast<Address>(i), 0);
  const auto key_with = [&](Address at, std::uint8_t value) {
    Image changed = image;
    changed.set(at, value);
    return bits->key(changed);
  };
  CHECK(bits->key(image) == 0);
  CHECK(key_with(0x14, 0x3F) == 0);
  CHECK(key_with(0x15, 0xFE) == 0);
  CHECK(key_with(0x16, 0xFF) == 0);
  CHECK(key_with(0x14, 0x40) == 0x200);
  CHECK(key_with(0x14, 0xC0) == 0x600);
  CHECK(key_with(0x15, 0x01) == 0x100);
  CHECK(key_with(0x3F, 0xA5) == 0xA5);
}

TEST_CASE("bits in more than eight bytes are too many for a key") {
  std::vector<BitSlice> slices;
  for (Address at = 0x20; at < 0x28; ++at) slices.push_back({at});
  const auto eight = DecidingBits::of(slices);
  REQUIRE(eight);
  CHECK(eight->width() == 64);
  slices.push_back({0x28, 0, 0});
  CHECK_FALSE(DecidingBits::of(slices));
}
