#include "audit/settings_key.h"

#include <catch2/catch.hpp>
#include <memory>

#include "audit/auditor.h"
#include "images/random_image.h"
#include "layout/library.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

/// Whether the second of two dumps is a copy of the first, each identified by itself.
bool are_copies(const Image& one, const Image& other) {
  const AuditRules rules;
  SettingsKeys keys(KeySecret{17, 4});
  const auto a = keys(one, judge_plainly(one, rules));
  const auto b = keys(other, judge_plainly(other, rules));
  return a && b && *a == *b;
}

}  // namespace

TEST_CASE("dumps of one machine are copies, whatever the clock and what the firmware notes") {
  CHECK(are_copies(at_64_image(), at_64_image()));
  CHECK(are_copies(at_64_image(),
                   with_bytes(at_64_image(), {{0x00, 0x59}, {0x08, 0x11}, {0x0A, 0x06}})));
  // 0Fh, the reason of the last shutdown.
  CHECK(are_copies(at_64_image(), with_bytes(at_64_image(), {{0x0F, 0x05}})));
  Image ram_only = at_64_image();
  for (Address at = 0; at < Image::ram_start; ++at) ram_only.forget(at);
  CHECK(are_copies(at_64_image(), ram_only));
}

TEST_CASE("a bit of the settings makes another dump") {
  // Found to be of the AT class either way: the sum at 2Eh grows with the byte.
  CHECK_FALSE(are_copies(at_64_image(), with_bytes(at_64_image(), {{0x1B, 0x01}})));
  std::vector<std::uint8_t> larger = at_64_bytes();
  larger.resize(128, 0x00);
  CHECK_FALSE(are_copies(at_64_image(), Image(larger)));
}

TEST_CASE("a part of 64 bytes that was read as 128 is a copy of itself read as 64") {
  std::vector<std::uint8_t> twice = at_64_bytes();
  twice.insert(twice.end(), twice.begin(), twice.end());
  CHECK(are_copies(at_64_image(), Image(twice)));
}

TEST_CASE("nothing is a copy of a dump that holds no settings") {
  const Image ones(std::vector<std::uint8_t>(64, 0xFF));
  CHECK_FALSE(are_copies(ones, ones));
  Image cleared = at_64_image();
  for (Address at = Image::ram_start; at < 64; ++at) cleared.set(at, 0xFF);
  CHECK_FALSE(are_copies(cleared, cleared));
  Image half = at_64_image();
  half.forget(0x20);
  CHECK_FALSE(are_copies(half, half));
}

TEST_CASE("the first dump with its settings is named, however many follow") {
  Copies copies;
  CHECK(copies.first_of({1, 1}, 1) == std::nullopt);
  CHECK(copies.first_of({1, 2}, 2) == std::nullopt);
  CHECK(copies.first_of({1, 1}, 3) == std::optional<std::size_t>(1));
  CHECK(copies.first_of({1, 1}, 4) == std::optional<std::size_t>(1));
  CHECK_FALSE(copies.is_full());
}

TEST_CASE("past its bound nothing new is remembered, and what was is still known") {
  Copies copies;
  for (std::uint64_t i = 0; i < Copies::most; ++i) copies.first_of({i, i}, i + 1);
  CHECK(copies.is_full());
  CHECK(copies.first_of({1'000'000, 0}, 600'000) == std::nullopt);
  CHECK(copies.first_of({1'000'000, 0}, 600'001) == std::nullopt);
  CHECK(copies.first_of({7, 7}, 600'002) == std::optional<std::size_t>(8));
}

TEST_CASE("a hundred thousand different settings have as many keys") {
  const auto layout = std::make_shared<const Layout>(built_in_layout("chip"));
  SettingsKeys keys(KeySecret{1, 2});
  Copies copies;
  Image image = at_64_image();
  std::size_t found = 0;
  for (unsigned i = 0; i < 100'000; ++i) {
    for (unsigned byte = 0; byte < 3; ++byte)
      image.set(static_cast<Address>(0x3D + byte), static_cast<std::uint8_t>(i >> 8 * byte));
    const auto key = keys(image, {layout, {}});
    REQUIRE(key);
    if (copies.first_of(*key, i + 1)) ++found;
  }
  CHECK(found == 0);
}
