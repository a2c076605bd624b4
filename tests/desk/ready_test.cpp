#include "desk/ready.h"

#include <catch2/catch.hpp>

#include "base/error.h"
#include "layout/library.h"
#include "layout/parts_catalogue.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

const Layout& at_64() {
  static const Layout layout = built_in_layout("at");
  return layout;
}

bool ready(const Image& image, const Leaving& leaving = {}, const Layout& layout = at_64()) {
  return readiness(image, layout, {}, leaving).is_ready();
}

}  // namespace

TEST_CASE("a sound image may leave, one with a failing check may not") {
  CHECK(ready(at_64_image()));
  CHECK_FALSE(ready(with_bytes(at_64_image(), {{0x2F, 0x68}})));
}

TEST_CASE("a clock that is not right stops only what writes the clock") {
  const Image stopped = with_bytes(at_64_image(), {{0x0A, 0x06}});  // DV = 000: off (DS12885)
  CHECK(ready(stopped));
  CHECK_FALSE(ready(stopped, {true, nullptr, nullptr}));
  const Image unset = with_bytes(at_64_image(), {{0x02, 0x99}});
  CHECK(ready(unset));
  CHECK_FALSE(ready(unset, {true, nullptr, nullptr}));
}

TEST_CASE("a flat cell stops no writing: register D cannot be written") {
  // DS12885: VRT is read only.
  CHECK(ready(with_bytes(at_64_image(), {{0x0D, 0x00}}), {true, nullptr, nullptr}));
}

TEST_CASE("settings that nothing proves are written only for those who insist") {
  CHECK_FALSE(ready(at_64_image(), {}, built_in_layout("chip")));
}

TEST_CASE("a part that is too small for the layout stops the writing") {
  std::vector<std::uint8_t> bytes = at_64_bytes();
  bytes.resize(128, 0);
  const Layout large = built_in_layout("at+sum-40-7d");
  bytes[0x45] = bytes[0x7F] = 0x21;
  CHECK(ready(Image(bytes), {}, large));
  CHECK(ready(Image(bytes), {false, &need_part("DS12887"), nullptr}, large));
  CHECK_FALSE(ready(Image(bytes), {false, &need_part("DS1287"), nullptr}, large));
}

TEST_CASE("a refusal names the obstacles and the way to insist") {
  const Image broken = with_bytes(at_64_image(), {{0x2F, 0x68}});
  try {
    need_ready(readiness(broken, at_64(), {}, {}), "dump.bin");
    FAIL("nothing was refused");
  } catch (const Error& error) {
    CHECK(error.where() == "dump.bin");
    CHECK(error.message().find("check-mismatch: The 16-bit sum over 10h-2Dh") != std::string::npos);
    REQUIRE(error.advice().steps().size() == 1);
    CHECK(error.advice().steps()[0].act == Act{Act::Kind::choose, "unsound-anyway", {}});
  }
}

TEST_CASE("a code that no list has may leave where the firmware sealed it, not where we did") {
  // RBIL61 C0008 knows the floppy codes 0 to 5. 09h more makes the sum 0267h + 09h = 0270h.
  const Image as_read = with_bytes(at_64_image(), {{0x10, 0x49}});
  const Image sealed = with_bytes(as_read, {{0x2F, 0x70}});
  CHECK(ready(sealed));
  CHECK(ready(sealed, {false, nullptr, &sealed}));
  const Readiness ready_now = readiness(sealed, at_64(), {}, {false, nullptr, &as_read});
  REQUIRE(ready_now.obstacles.size() == 1);
  CHECK(ready_now.obstacles.front().id() == "field-unlisted");
}
