#include "judge/recall.h"

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
