#include "judge/identify.h"

#include <catch2/catch.hpp>

#include "examining.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

Identification identified(const Image& image) {
  return identify(
      image, {layout_of("at-128"), layout_of("at-64"), layout_of("chip-64"), layout_of("crc-64")});
}

/// Flips after which the layout is not clear any more, as "10.3"; empty is what we want.
std::vector<std::string> flips_that_hide(const Image& image, const std::string& layout,
                                         Range range) {
  std::vector<std::string> hidden;
  for (const Address at : to_addresses(range))
    for (unsigned bit = 0; bit < 8; ++bit) {
      const auto flipped = static_cast<std::uint8_t>(image[at] ^ (1U << bit));
      if (identified(with_bytes(image, {{at, flipped}})).clear != layout)
        hidden.push_back(to_text(Range{at, at}) + "." + std::to_string(bit));
    }
  return hidden;
}

}  // namespace

TEST_CASE("a check that holds makes its layout clear") {
  CHECK(identified(at_64_image()).clear == "at-64");
  CHECK(identified(crc_64_image()).clear == "crc-64");
}

TEST_CASE("layouts of another size are no candidates, the rest are ranked") {
  const auto candidates = identified(at_64_image()).candidates;
  REQUIRE(candidates.size() >= 3);
  CHECK(candidates[0].layout == "at-64");
  CHECK(candidates[0].score > 16);
  CHECK(candidates[0].why.find("sum-10-2d holds") == 0);
  for (const Candidate& candidate : candidates) CHECK(candidate.layout != "at-128");
}

TEST_CASE("a layout without checks and fields has no evidence either way") {
  for (const Candidate& candidate : identified(at_64_image()).candidates)
    if (candidate.layout == "chip-64") {
      CHECK(candidate.score == 0);
      CHECK(candidate.why == "no check to judge by");
    }
}

TEST_CASE("one flipped bit does not hide what a machine is") {
  const std::vector<std::string> none;
  CHECK(flips_that_hide(at_64_image(), "at-64", {0x10, 0x2F}) == none);
  CHECK(flips_that_hide(crc_64_image(), "crc-64", {0x10, 0x33}) == none);
}

TEST_CASE("a blank image, though its sum agrees, is nothing in particular") {
  CHECK(identified(Image(std::vector<std::uint8_t>(64, 0x00))).clear.empty());
  CHECK(identified(Image(std::vector<std::uint8_t>(64, 0xFF))).clear.empty());
}

TEST_CASE("bytes that fit no layout leave it open") {
  std::vector<std::uint8_t> bytes(64);
  for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<std::uint8_t>(i * 37 + 11);
  CHECK(identified(Image(bytes)).clear.empty());
}

TEST_CASE("the only layout of a size is clear, and without layouts nothing is") {
  CHECK(identify(at_64_image(), {layout_of("at-64"), layout_of("at-128")}).clear == "at-64");
  CHECK(identify(at_64_image(), {}).clear.empty());
}
