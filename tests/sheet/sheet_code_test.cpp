#include <catch2/catch.hpp>
#include <sstream>

#include "forms/code_text.h"
#include "render/small_layout.h"
#include "sheet/sheet.h"
#include "support/code_readers.h"
#include "support/page_reader.h"

using namespace rtcmend;
using namespace rtcmend::test;
using Catch::Matchers::Contains;

namespace {

std::vector<PageElement> sheet_of(const Shown& shown) {
  return read_page(
      sheet_html({"", "", shown.card(), forecast(shown.examination, shown.layout), {}}));
}

std::string phone_section(const std::vector<PageElement>& page) {
  const auto found = with(page, "id", "rows");
  REQUIRE(found.size() == 1);
  return found.front().inside;
}

/// The squares of "M4 4h7v1h-7z..." on a field of 45 by 45, four pixels each.
Picture painted(const std::string& path) {
  constexpr int side = 45, scale = 4;
  Picture picture{side * scale, side * scale, {}};
  picture.grey.assign(side * scale * side * scale, 0xFF);
  std::istringstream in(path);
  char letter = 0;
  for (int x = 0, y = 0, length = 0; in >> letter >> x >> y >> letter >> length;) {
    for (int i = 0; i < length * scale; ++i)
      for (int j = 0; j < scale; ++j)
        picture.grey[static_cast<std::size_t>((y * scale + j) * picture.width + x * scale + i)] = 0;
    std::string rest;
    std::getline(in, rest, 'z');
  }
  return picture;
}

std::vector<Picture> codes_on(const std::vector<PageElement>& page) {
  std::vector<Picture> pictures;
  for (const PageElement& path : with(page, "fill", "#000"))
    pictures.push_back(painted(path.attributes.at("d")));
  return pictures;
}

}  // namespace

TEST_CASE("the codes of a sheet are read as the chip's bytes, those of a password unknown") {
  Image image = at_64_image().with_size(128);
  for (Address at = 0x40; at < 0x80; ++at) image.set(at, static_cast<std::uint8_t>(5 * at));
  const Shown shown(image);
  for (Address at = 0x38; at < 0x40; ++at) image.forget(at);
  const std::vector<Picture> pictures = codes_on(sheet_of(shown));
  REQUIRE(pictures.size() == 2);
  for (const CodeReader reader : code_readers) {
    if (!has(reader)) continue;
    const auto texts = read_codes(reader, pictures);
    CHECK(read_code_text(texts[0] + "\n" + texts[1], "codes", {}).image == image);
  }
}

TEST_CASE("a sheet says what its code is and how to read it back") {
  const Shown shown(at_64_image());
  const std::string words = plain(phone_section(sheet_of(shown)));
  CHECK_THAT(words, Contains("for the camera of a phone: one code") &&
                        Contains("rtcmend reads it as a dump") &&
                        Contains("Code 1 of 1, bytes 00h to 3Fh"));
}

TEST_CASE("a sheet of an image that is not sound says so above the code, and only then") {
  const Shown broken(with_bytes(at_64_image(), {{0x2F, 0x68}}));
  const std::string inside = phone_section(sheet_of(broken));
  CHECK(inside.find("This image is not sound") < inside.find("<figure"));
  const Shown sound(at_64_image());
  CHECK_THAT(phone_section(sheet_of(sound)), !Contains("not sound"));
}
