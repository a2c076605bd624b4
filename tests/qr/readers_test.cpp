// The codes as programs read them that know nothing of this project.
#include <catch2/catch.hpp>
#include <random>

#include "forms/code_text.h"
#include "qr/qr_code.h"
#include "support/code_readers.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

/// An image of either size; every fourth with unknown bytes, the first two blank.
Image random_image(unsigned seed) {
  std::mt19937 random(seed);
  Image image(seed % 2 == 0 ? 64 : 128);
  for (std::size_t i = 0; i < image.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (seed % 4 == 3 && random() % 8 == 0) continue;
    image.set(at, seed < 2 ? 0x00 : static_cast<std::uint8_t>(random() & 0xFF));
  }
  return image;
}

/// Dark on light, with the quiet zone, as it is printed.
Picture printed(const QrCode& code) {
  constexpr int scale = 4;
  constexpr int side = (QrCode::side + 2 * QrCode::quiet) * scale;
  Picture picture{side, side, {}};
  for (int y = 0; y < side; ++y)
    for (int x = 0; x < side; ++x)
      picture.grey.push_back(
          code.dark(y / scale - QrCode::quiet, x / scale - QrCode::quiet) ? 0x00 : 0xFF);
  return picture;
}

/// How many of so many images a reader gives back as they were, and how many otherwise.
struct Tally {
  unsigned right = 0;
  unsigned wrong = 0;
};

Tally read_back(CodeReader reader, unsigned from, unsigned count) {
  std::vector<Picture> pictures;
  for (unsigned seed = from; seed < from + count; ++seed)
    for (const std::string& text : code_texts(random_image(seed)))
      pictures.push_back(printed(qr_code(text)));
  const std::vector<std::string> texts = read_codes(reader, pictures);
  Tally tally;
  std::size_t at = 0;
  for (unsigned seed = from; seed < from + count; ++seed) {
    const Image image = random_image(seed);
    std::string text;
    for (std::size_t i = 0; i < image.size(); i += bytes_a_code) text += texts[at++] + "\n";
    if (text.find_first_not_of('\n') == std::string::npos) continue;
    ++(read_code_text(text, "codes", {}).image == image ? tally.right : tally.wrong);
  }
  return tally;
}

}  // namespace

TEST_CASE("two independent readers read our codes as the bytes that went in", "[long]") {
  for (const CodeReader reader : code_readers) {
    if (!has(reader)) continue;
    const Tally tally = read_back(reader, 0, 24);
    CHECK(tally.right == 24);
    CHECK(tally.wrong == 0);
  }
}

TEST_CASE("codes of a thousand random images, as two readers read them", "[.figures]") {
  for (const CodeReader reader : code_readers) {
    if (!has(reader)) continue;
    Tally tally;
    for (unsigned from = 0; from < 1000; from += 100) {
      const Tally more = read_back(reader, from, 100);
      tally.right += more.right;
      tally.wrong += more.wrong;
    }
    WARN((reader == CodeReader::zbar ? "zbarimg" : "ZXingReader")
         << ": " << tally.right << " of 1000 images read, " << tally.wrong << " of them wrongly");
    CHECK(tally.right == 1000);
    CHECK(tally.wrong == 0);
  }
}
