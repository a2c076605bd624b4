#include "base/ranges.h"

#include <catch2/catch.hpp>

using namespace rtcmend;

TEST_CASE("a range is one address or two with a dash, the lower first") {
  CHECK(parse_range("10-2D") == Range{0x10, 0x2D});
  CHECK(parse_range("2e") == Range{0x2E, 0x2E});
  CHECK_FALSE(parse_range("2D-10"));
  CHECK_FALSE(parse_range("70-80"));
  CHECK_FALSE(parse_range("10-"));
  CHECK_FALSE(parse_range("-10"));
  CHECK_FALSE(parse_range(""));
}

TEST_CASE("neighbouring addresses are written as ranges") {
  CHECK(to_text(Addresses{0x10, 0x11, 0x12, 0x2E}) == "10-12, 2E");
  CHECK(to_prose(Addresses{0x10, 0x11, 0x2E}) == "10h-11h, 2Eh");
  CHECK(to_text(Addresses{}) == "none");
  CHECK(to_addresses(Range{0x7E, 0x7F}) == Addresses{0x7E, 0x7F});
}
