#include <algorithm>
#include <catch2/catch.hpp>

#include "judge/examining.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

const Layout& two_sums() {
  static const Layout layout = built_in_layout("at+sum-34-3d");
  return layout;
}

}  // namespace

TEST_CASE("beside a sum that holds, an area of zeros with a zero sum is empty and sound") {
  // RBIL61 CMOS 3Eh, 3Fh: the second sum. at_64_image() has zeros from 34h to 3Fh.
  const Examination examination = examine(at_64_image(), two_sums());
  CHECK(examination.sound);
  REQUIRE(examination.checks.size() == 2);
  CHECK(examination.checks[0].ok());
  CHECK(examination.checks[1].ok());
}

TEST_CASE("an empty area still needs its own sum to agree") {
  const Examination examination = examine(with_bytes(at_64_image(), {{0x3F, 0x01}}), two_sums());
  CHECK_FALSE(examination.sound);
  CHECK(briefly(examination.findings) ==
        std::vector<std::string>{"fault check-mismatch at 3Eh-3Fh"});
}

TEST_CASE("where both areas hold nothing but zeros the image is blank twice over") {
  std::vector<std::uint8_t> bytes = at_64_bytes();
  std::fill(bytes.begin() + 0x0E, bytes.end(), std::uint8_t{0});
  const Examination examination = examine(Image(bytes), two_sums());
  CHECK_FALSE(examination.sound);
  CHECK_FALSE(examination.checks[0].ok());
  CHECK_FALSE(examination.checks[1].ok());
}
