#include "forms/row_slips.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace rtcmend;

namespace {

// Codes computed with an independent CRC-8 (polynomial 07h, start 00h) in Python.
const Row edges{0x10, {0x27, 0x13, 0x40, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0x24, 0x8E}, 0xA1};
const Row faces{0x10, {0xF0, 0x1D, 0x70, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0x00, 0xFF}, 0x28};

Row with(Row row, std::size_t column, DumpByte byte) {
  row.bytes[column] = byte;
  return row;
}

Row with_code(Row row, std::uint8_t code) {
  row.code = code;
  return row;
}

bool names(const std::vector<std::string>& slips, const std::string& slip) {
  return std::count(slips.begin(), slips.end(), slip) == 1;
}

bool any_says(const std::vector<std::string>& slips, const std::string& words) {
  return std::any_of(slips.begin(), slips.end(), [&](const std::string& slip) {
    return slip.find(words) != std::string::npos;
  });
}

}  // namespace

TEST_CASE("the rows of these tests fit their codes") {
  CHECK(fits_code(edges));
  CHECK(fits_code(faces));
  CHECK(usual_slips(edges).empty());
}

TEST_CASE("digits swapped in the first and in the last byte of a row are named") {
  CHECK(names(usual_slips(with(edges, 0, 0x72)), "27 at 10h was read as 72"));
  CHECK(names(usual_slips(with(edges, 15, 0xE8)), "8E at 1Fh was read as E8"));
}

TEST_CASE("bytes swapped at either end of a row are named") {
  CHECK(names(usual_slips(with(with(edges, 0, 0x13), 1, 0x27)),
              "13 and 27 at 10h and 11h were swapped"));
  CHECK(names(usual_slips(with(with(edges, 14, 0x8E), 15, 0x24)),
              "8E and 24 at 1Eh and 1Fh were swapped"));
}

TEST_CASE("digits swapped across bytes at either end of a row are named") {
  CHECK(names(usual_slips(with(with(edges, 0, 0x21), 1, 0x73)), "27 13 at 10h was read as 21 73"));
  CHECK(
      names(usual_slips(with(with(edges, 14, 0x28), 15, 0x4E)), "24 8E at 1Eh was read as 28 4E"));
}

TEST_CASE("a digit taken for one that looks like it is named, whichever way round") {
  CHECK(names(usual_slips(with(faces, 0, 0xE0)), "F0 at 10h was read as E0"));
  CHECK(names(usual_slips(with(faces, 15, 0xFE)), "FF at 1Fh was read as FE"));
  CHECK(names(usual_slips(with(faces, 1, 0x10)), "1D at 11h was read as 10"));
  CHECK(names(usual_slips(with(faces, 14, 0x0D)), "00 at 1Eh was read as 0D"));
  CHECK(names(usual_slips(with(faces, 1, 0x7D)), "1D at 11h was read as 7D"));
  CHECK(names(usual_slips(with(faces, 2, 0x10)), "70 at 12h was read as 10"));
  CHECK(names(usual_slips(with(faces, 2, 0x78)), "70 at 12h was read as 78"));
}

TEST_CASE("a digit that looks like no other is named only where nothing usual explains the row") {
  const Row row = with(faces, 0, 0xA0);
  CHECK_FALSE(names(usual_slips(row), "F0 at 10h was read as A0"));
  CHECK(names(other_slips(row), "F0 at 10h was read as A0"));
  CHECK_FALSE(names(other_slips(with(faces, 0, 0xE0)), "F0 at 10h was read as E0"));
}

TEST_CASE("an unknown byte is given back whatever it was, and two are not") {
  CHECK(names(usual_slips(with(faces, 14, std::nullopt)), "the unknown byte at 1Eh is 00"));
  CHECK(names(usual_slips(with(faces, 15, std::nullopt)), "the unknown byte at 1Fh is FF"));
  CHECK_FALSE(any_says(usual_slips(with(with(faces, 14, std::nullopt), 15, std::nullopt)),
                       "the unknown byte"));
}

TEST_CASE("an unknown byte was not swapped with its neighbour") {
  for (const std::size_t column : {std::size_t{0}, std::size_t{1}}) {
    const auto slips = usual_slips(with(edges, column, std::nullopt));
    CHECK_FALSE(any_says(slips, "10h and 11h"));
    CHECK_FALSE(any_says(slips, "at 10h was read"));
  }
}

TEST_CASE("the code may be what was misread: one digit of it, or both swapped") {
  CHECK(names(usual_slips(with_code(faces, 0x78)), "the code =28 was read as =78"));
  CHECK(names(usual_slips(with_code(faces, 0x29)), "the code =28 was read as =29"));
  CHECK(names(usual_slips(with_code(faces, 0x82)), "the code =28 was read as =82"));
  CHECK_FALSE(any_says(usual_slips(with_code(faces, 0x93)), "the code"));
}

TEST_CASE("letters and signs stand for the digits that they look like") {
  CHECK(digit_for('O') == '0');
  CHECK(digit_for('l') == '1');
  CHECK(digit_for('Z') == '2');
  CHECK(digit_for('S') == '5');
  CHECK(digit_for('q') == '9');
  CHECK(digit_for('X') == 0);
}
