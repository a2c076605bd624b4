#include "make/seal.h"

#include <catch2/catch.hpp>

#include "complaint.h"
#include "layout/library.h"
#include "support/sound_images.h"

using namespace rtcmend;

TEST_CASE("sealing stores the sum high byte first and touches nothing else") {
  // 0267h by hand, see at_64_bytes().
  const Image broken = with_bytes(at_64_image(), {{0x2E, 0xAA}, {0x2F, 0x55}});
  CHECK(seal(broken, built_in_layout("at")) == at_64_image());
}

TEST_CASE("sealing stores the CRC high byte first and touches nothing else") {
  // 5CDCh by Python's binascii.crc_hqx.
  const Image broken = with_bytes(crc_64_image(), {{0x32, 0x00}, {0x33, 0x00}});
  CHECK(seal(broken, built_in_layout("crc+slots-19")) == crc_64_image());
}

TEST_CASE("a check over the result of another is sealed after it") {
  Layout layout;
  layout.id = "example";
  const Check over{"xor-20-21", "", XorRule{}, {{{0x20, 0x21}, {}}}, 0x22, Order::high_first, {}};
  const Check sum{"sum-10-11", "", SumRule{}, {{{0x10, 0x11}, {}}}, 0x20, Order::high_first, {}};
  layout.checks = {over, sum};
  layout.sealing = sealing_order(layout.checks, "example");
  const Image zeros(std::vector<std::uint8_t>(64, 0));
  const Image sealed = seal(with_bytes(zeros, {{0x10, 0xF0}, {0x11, 0x20}}), layout);
  // F0h + 20h = 0110h; 01h xor 10h = 11h.
  CHECK(sealed ==
        with_bytes(zeros, {{0x10, 0xF0}, {0x11, 0x20}, {0x20, 0x01}, {0x21, 0x10}, {0x22, 0x11}}));
}

TEST_CASE("unknown check bytes become known, unknown covered bytes are refused") {
  const Layout layout = built_in_layout("at");
  CHECK(seal(without(at_64_image(), {0x2E, 0x2F}), layout) == at_64_image());
  CHECK_THROWS_AS(seal(without(at_64_image(), {0x2D, 0x2D}), layout), Error);
}

TEST_CASE("a layout without checks leaves the image alone") {
  CHECK(seal(at_64_image(), built_in_layout("chip")) == at_64_image());
}
