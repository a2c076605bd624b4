#include "base/image.h"

#include <catch2/catch.hpp>
#include <vector>

#include "base/error.h"

using namespace rtcmend;

TEST_CASE("an image has 64 or 128 bytes and starts out unknown") {
  CHECK_THROWS_AS(Image(std::size_t{50}), Error);
  const Image image(std::size_t{64});
  CHECK(image.size() == 64);
  CHECK_FALSE(image.known(0));
  CHECK_FALSE(image.at(0x10));
  CHECK(image.unknown().size() == 64);
}

TEST_CASE("an unknown byte is not a zero byte") {
  Image image(std::size_t{128});
  image.set(0x10, 0x00);
  CHECK(image.at(0x10) == 0x00);
  CHECK_FALSE(image == Image(std::size_t{128}));
  image.forget(0x10);
  CHECK(image == Image(std::size_t{128}));
}

TEST_CASE("addresses outside the image are never known") {
  const Image image(std::vector<std::uint8_t>(64, 0x55));
  CHECK(image.all_known());
  CHECK(image.at(0x3F) == 0x55);
  CHECK_FALSE(image.known(0x40));
  CHECK_FALSE(image.known(0xFF));
}
