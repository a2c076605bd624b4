#include "terminal/code.h"

#include <catch2/catch.hpp>

#include "base/text.h"
#include "forms/code_text.h"
#include "render/small_layout.h"
#include "support/code_readers.h"

using namespace rtcmend;
using namespace rtcmend::test;
using Catch::Matchers::Contains;

namespace {

/// What a terminal shows of a drawing: pixels four by four for half a character, light for a block.
class Screen {
 public:
  void add(std::string_view line) {
    std::string upper, lower;
    for (std::size_t at = 0; at < line.size();) {
      const bool blank = line[at] == ' ';
      const std::string_view sign = line.substr(at, blank ? 1 : 3);
      at += sign.size();
      upper += sign == "█" || sign == "▀" ? '\xFF' : '\0';
      lower += sign == "█" || sign == "▄" ? '\xFF' : '\0';
    }
    for (const std::string& row : {upper, lower}) add_row(row);
  }
  const Picture& picture() const { return picture_; }

 private:
  static constexpr int scale = 4;
  void add_row(const std::string& row) {
    picture_.width = static_cast<int>(row.size()) * scale;
    picture_.height += scale;
    for (int y = 0; y < scale; ++y)
      for (const char pixel : row)
        picture_.grey.insert(picture_.grey.end(), scale, static_cast<std::uint8_t>(pixel));
  }
  Picture picture_;
};

/// The drawings in a text, in turn.
std::vector<Picture> drawings(const std::string& text) {
  std::vector<Picture> pictures;
  Screen screen;
  for (const std::string_view line : lines(text)) {
    if (line.starts_with("█") || line.starts_with("▀")) {
      screen.add(line);
    } else if (screen.picture().height > 0) {
      pictures.push_back(screen.picture());
      screen = {};
    }
  }
  return pictures;
}

}  // namespace

TEST_CASE("the codes in a terminal are 45 characters wide and 23 high, and numbered") {
  const Shown shown(at_64_image());
  const std::string text = code_picture(shown.card(), Ink());
  CHECK_THAT(text, Contains("Code 1 of 1, bytes 00h to 3Fh"));
  const std::vector<Picture> pictures = drawings(text);
  REQUIRE(pictures.size() == 1);
  CHECK(pictures[0].width == 45 * 4);
  CHECK(pictures[0].height == 46 * 4);
  const Shown large(at_64_image().with_size(128));
  const std::string two = code_picture(large.card(), Ink());
  CHECK(drawings(two).size() == 2);
  CHECK_THAT(two, Contains("Code 2 of 2, bytes 40h to 7Fh"));
}

TEST_CASE("what is drawn in a terminal is read as the chip's bytes, those of a password unknown") {
  Image image = at_64_image().with_size(128);
  for (Address at = 0x40; at < 0x80; ++at) image.set(at, static_cast<std::uint8_t>(3 * at));
  const Shown shown(image);
  for (const CodeReader reader : code_readers) {
    if (!has(reader)) continue;
    const auto texts = read_codes(reader, drawings(code_picture(shown.card(), Ink())));
    REQUIRE(texts.size() == 2);
    const Image read = read_code_text(texts[0] + "\n" + texts[1], "codes", {}).image;
    for (Address at = 0x38; at < 0x40; ++at) {
      CHECK_FALSE(read.known(at));
      image.forget(at);
    }
    CHECK(read == image);
  }
}

TEST_CASE("an image that is not sound says so above its code, a sound one does not") {
  const Shown broken(with_bytes(at_64_image(), {{0x2F, 0x68}}));
  const std::string text = code_picture(broken.card(), Ink());
  CHECK(text.find("This image is not sound, and copying it does not mend it: Settings broken") <
        text.find("Code 1 of 1"));
  const Shown sound(at_64_image());
  CHECK_THAT(code_picture(sound.card(), Ink()), !Contains("not sound"));
}

TEST_CASE("with colour a code is light on dark whatever the terminal's colours are") {
  const Shown shown(at_64_image());
  CHECK_THAT(code_picture(shown.card(), Ink(true)), Contains("\x1b[97;40m█████"));
}
