#include <algorithm>
#include <catch2/catch.hpp>

#include "judge/examining.h"
#include "repair/suspects.h"
#include "support/sound_images.h"

using namespace rtcmend;

// A hand that lost its place in a row of 16 bytes.

namespace {

/// 20h-2Fh hold 00 12 34 40 78 9A BC DE F0 00 ...: CRC-16/IBM-3740 over 10h-31h by Python's
/// binascii.crc_hqx(bytes, 0xFFFF).
Image sound_image() {
  Image image = crc_64_image();
  constexpr std::uint8_t ascending[] = {0x12, 0x34, 0x40, 0x78, 0x9A, 0xBC, 0xDE, 0xF0};
  for (std::size_t i = 0; i < std::size(ascending); ++i)
    image.set(static_cast<Address>(0x21 + i), ascending[i]);
  return with_bytes(image, {{0x32, 0x00}, {0x33, 0x18}});
}

std::vector<Suspect> weighed(const Image& image, Origin origin) {
  return suspects(image, layout_of("crc+slots-19"), {origin, {}, {}, {}});
}

/// The first suspect of a typed dump.
Suspect first_of(const Image& image) {
  const auto all = weighed(image, Origin::hand);
  REQUIRE_FALSE(all.empty());
  return all.front();
}

/// 34 written twice, and DE left out.
Image byte_twice() {
  return with_bytes(sound_image(),
                    {{0x23, 0x34}, {0x24, 0x40}, {0x25, 0x78}, {0x26, 0x9A}, {0x27, 0xBC}});
}

}  // namespace

TEST_CASE("the image of these tests is sound, too") {
  CHECK(weighed(sound_image(), Origin::hand).empty());
}

TEST_CASE("a byte written twice, and a later one left out") {
  const Suspect first = first_of(byte_twice());
  CHECK(first.id == "moved-22-27-DE");
  CHECK(repaired(byte_twice(), first) == sound_image());
  CHECK(first.odds > 0.9);
  CHECK(
      first.text.starts_with("A slip: what stands at 22h was written twice, and DE at 27h left "
                             "out; all between stands one place off."));
}

TEST_CASE("a byte left out, and a later one written twice") {
  // 12 at 21h was left out, and 78 written twice.
  const Image dump =
      with_bytes(sound_image(), {{0x21, 0x34}, {0x22, 0x40}, {0x23, 0x78}, {0x24, 0x78}});
  const Suspect first = first_of(dump);
  CHECK(first.id == "moved-23-21-12");
  CHECK(repaired(dump, first) == sound_image());
}

TEST_CASE("a digit written twice, and one left out, with all digits between moved") {
  // 9A BC DE was typed 9A BB CE: the B twice, the D left out.
  const Image dump = with_bytes(sound_image(), {{0x26, 0xBB}, {0x27, 0xCE}});
  const Suspect first = first_of(dump);
  CHECK(first.id == "digits-26.1-27.1-D");
  CHECK(repaired(dump, first) == sound_image());
  CHECK(
      first.text.starts_with("A slip: what stands at the first digit of 26h was written twice, "
                             "and D at the first digit of 27h left out"));
}

TEST_CASE("two rows in each other's place") {
  Image dump = sound_image();
  for (std::size_t i = 0x10; i < 0x20; ++i) {
    const auto first = static_cast<Address>(i), second = static_cast<Address>(i + 0x10);
    dump.set(first, sound_image()[second]);
    dump.set(second, sound_image()[first]);
  }
  const Suspect first = first_of(dump);
  CHECK(first.id == "rows-10-20");
  CHECK(repaired(dump, first) == sound_image());
}

TEST_CASE("what a machine wrote down is not told as a slip in a row") {
  for (const Suspect& suspect : weighed(byte_twice(), Origin::machine))
    CHECK_FALSE(repaired(byte_twice(), suspect) == sound_image());
}

TEST_CASE("a row with a password is left where it is") {
  // 13h has the bits that say whether passwords are set (RBIL61 C0017): 27 00 40 at 11h-13h.
  const Image dump = with_bytes(sound_image(), {{0x11, 0x22}, {0x12, 0x70}, {0x13, 0x04}});
  for (const Suspect& suspect : weighed(dump, Origin::hand))
    for (const Patch& patch : suspect.changes) CHECK(patch.at != 0x13);
}
