#include "qr/qr_code.h"

#include <catch2/catch.hpp>
#include <random>
#include <string>
#if RTCMEND_QRCODEGEN
#include <qrcodegen/qrcodegen.hpp>
#endif

#include "base/error.h"
#include "qr/codewords.h"

using namespace rtcmend;
using Catch::Matchers::Contains;

namespace {

const std::string alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

/// A row of modules, # for dark.
std::string row(const QrCode& code, int number) {
  std::string text;
  for (int column = 0; column < QrCode::side; ++column)
    text += code.dark(number, column) ? '#' : '.';
  return text;
}

}  // namespace

// Figure 2 and chapter 7.3 of ISO/IEC 18004, from memory.
TEST_CASE("a code has its finders, timing and alignment where every reader looks") {
  const QrCode code = qr_code("RTCMEND1");
  CHECK(row(code, 0).substr(0, 8) == "#######.");
  CHECK(row(code, 2).substr(0, 8) == "#.###.#.");
  CHECK(row(code, 2).substr(29) == ".#.###.#");
  CHECK(row(code, 6) == "#######.#.#.#.#.#.#.#.#.#.#.#.#######");
  CHECK(row(code, 7).substr(0, 8) == "........");
  CHECK(row(code, 36).substr(0, 8) == "#######.");
  CHECK(row(code, 28).substr(28, 5) == "#####");
  CHECK(row(code, 29).substr(28, 5) == "#...#");
  CHECK(row(code, 30).substr(28, 5) == "#.#.#");
  CHECK_FALSE(code.dark(-1, 0));
  CHECK_FALSE(code.dark(0, QrCode::side));
}

// 110011000101111 for level L and mask 4: annex C of ISO/IEC 18004, from memory.
TEST_CASE("the format says level L and mask 4, twice") {
  const QrCode code = qr_code("RTCMEND1");
  std::string beside, below;
  for (int i : {0, 1, 2, 3, 4, 5, 7, 8}) beside += code.dark(8, i) ? '1' : '0';
  for (int i : {7, 5, 4, 3, 2, 1, 0}) beside += code.dark(i, 8) ? '1' : '0';
  for (int i = 36; i > 29; --i) below += code.dark(i, 8) ? '1' : '0';
  for (int i = 29; i < 37; ++i) below += code.dark(8, i) ? '1' : '0';
  CHECK(beside == "110011000101111");
  CHECK(below == "110011000101111");
  CHECK(code.dark(29, 8));
}

// "AC-42" is 0010 000000101 00111001110 11100111001 000010: the example of the standard's chapter
// 7.4.4, with a count of nine bits; from memory. Then zeros, ECh and 11h in turn.
TEST_CASE("the standard's example text becomes its bits, and is filled up") {
  const Codewords bytes = codewords_of("AC-42");
  const std::uint8_t first[] = {0x20, 0x29, 0xCE, 0xE7, 0x21, 0x00, 0xEC, 0x11, 0xEC};
  for (std::size_t i = 0; i < std::size(first); ++i) CHECK(bytes[i] == first[i]);
  CHECK(bytes[107] == 0x11);
}

TEST_CASE("154 characters fit, one more is refused, and so is a small letter") {
  CHECK_NOTHROW(qr_code(std::string(154, 'Z')));
  CHECK_THROWS_WITH(qr_code(std::string(155, 'Z')),
                    Contains("155 characters are more than the 154"));
  CHECK_THROWS_WITH(qr_code("RTCMENd1"), Contains("\"d\" cannot stand in a code"));
}

#if RTCMEND_QRCODEGEN
TEST_CASE("module for module what an independent encoder gives, told the same version and mask") {
  using qrcodegen::QrSegment;
  std::mt19937 random(25);
  for (int round = 0; round < 200; ++round) {
    std::string text(random() % 155, '0');
    for (char& c : text) c = alphabet[round == 0 ? 0 : random() % alphabet.size()];
    CAPTURE(text);
    const qrcodegen::QrCode other = qrcodegen::QrCode::encodeSegments(
        {QrSegment::makeAlphanumeric(text.c_str())}, qrcodegen::QrCode::Ecc::LOW, 5, 5, 4, false);
    const QrCode code = qr_code(text);
    REQUIRE(other.getSize() == QrCode::side);
    bool same = true;
    for (int y = 0; y < QrCode::side; ++y)
      for (int x = 0; x < QrCode::side; ++x)
        same = same && code.dark(y, x) == other.getModule(x, y);
    CHECK(same);
  }
}
#endif
