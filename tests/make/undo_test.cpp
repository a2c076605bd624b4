#include "make/undo.h"

#include <catch2/catch.hpp>

#include "complaint.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

Image counting(std::size_t size) {
  Image image(size);
  for (std::size_t at = 0; at < size; ++at)
    image.set(static_cast<Address>(at), static_cast<std::uint8_t>(at));
  return image;
}

}  // namespace

TEST_CASE("a shift is taken back, and what came round goes back round") {
  const Image image = undo(counting(64), "shift=1");
  CHECK(image[0x00] == 0x01);
  CHECK(image[0x3E] == 0x3F);
  CHECK(image[0x3F] == 0x00);
  const Image other = undo(counting(64), "shift=-2");
  CHECK(other[0x02] == 0x00);
  CHECK(other[0x00] == 0x3E);
}

TEST_CASE("nibbles and bits change places") {
  CHECK(undo(counting(64), "nibbles")[0x2E] == 0xE2);
  // 2Eh = 00101110 read backwards is 01110100 = 74h.
  CHECK(undo(counting(64), "bit-order")[0x2E] == 0x74);
}

TEST_CASE("unknown bytes move along and stay unknown") {
  const Image image = undo(without(at_64_image(), {0x10, 0x10}), "shift=4");
  CHECK_FALSE(image.known(0x0C));
  CHECK(image.known(0x10));
  CHECK_FALSE(undo(without(at_64_image(), {0x10, 0x10}), "nibbles").known(0x10));
}

TEST_CASE("what cannot be undone is refused with what can") {
  CHECK(complaint([] { undo(counting(64), "sideways"); }) ==
        "undo: \"sideways\" is nothing that can be undone / try: shift=1, shift=-1, "
        "nibbles or bit-order");
  CHECK(complaint([] { undo(counting(64), "shift=64"); }) ==
        "undo: \"64\" is not a shift within 64 bytes / try: shift=1, shift=-1, nibbles "
        "or bit-order");
  CHECK(complaint([] { undo(counting(64), "shift=one"); }) ==
        "undo: \"one\" is not a shift within 64 bytes / try: shift=1, shift=-1, nibbles "
        "or bit-order");
}
