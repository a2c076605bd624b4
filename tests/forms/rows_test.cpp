#include <catch2/catch.hpp>

#include "forms/samples.h"

using namespace rtcmend;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

// Codes computed with an independent CRC-8 (polynomial 07h, start 00h) in Python.
const std::string row_00 = "00: 21 00 58 00 05 00 05 15 02 94 26 02 50 80 00 00 =E0\n";
const std::string row_10 = "10: 40 00 F0 00 41 80 02 80 01 27 00 00 00 00 00 00 =48\n";
const std::string row_20 = "20: 00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 9B =25\n";
const std::string row_30 = "30: 80 01 19 00 41 42 20 43 20 7C 3E 23 3D 2E 2D 7F =0B\n";

Image read(const std::string& text) {
  return read_dump(text, "dump", Form::rows).image;
}

std::string refused(const std::string& text) {
  return refusal(text, Form::rows);
}

std::string advice(const std::string& text) {
  return remedy(text, Form::rows);
}

/// Row 10h with one piece of it written otherwise.
std::string slip(const std::string& right, const std::string& wrong) {
  std::string row = row_10;
  const auto at = row.find(right);
  REQUIRE(at != std::string::npos);
  return row.replace(at, right.size(), wrong);
}

}  // namespace

TEST_CASE("rows are read and written with their codes") {
  CHECK(read(row_00 + row_10 + row_20 + row_30) == sample_64());
  CHECK(write_dump(sample_64(), Form::rows) == row_00 + row_10 + row_20 + row_30);
}

TEST_CASE("rows of a chip of 128 bytes go on to 70h") {
  const std::string zeros = " 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 =";
  CHECK(write_dump(sample_128(), Form::rows) == row_00 + row_10 + row_20 + row_30 + "40:" + zeros +
                                                    "89\n50:" + zeros + "69\n60:" + zeros +
                                                    "4E\n70:" + zeros + "AE\n");
}

TEST_CASE("rows come in any order, and the bytes of missing ones are unknown") {
  const Image image = read(row_30 + row_10);
  CHECK(image.size() == 64);
  CHECK(image.at(0x10) == 0x40);
  CHECK(image.at(0x3F) == 0x7F);
  CHECK_FALSE(image.known(0x00));
  CHECK_FALSE(image.known(0x2F));
}

TEST_CASE("unknown bytes are left out of the code") {
  CHECK(read("10: 40 00 F0 00 41 80 02 80 01 ?? 00 00 00 00 00 00 =FC").known(0x19) == false);
  const Image image = ram_part_of(sample_64());
  CHECK(write_dump(image, Form::rows).substr(0, 56) ==
        "00: ?? ?? ?? ?? ?? ?? ?? ?? ?? ?? ?? ?? ?? ?? 00 00 =00\n");
  CHECK(read(write_dump(image, Form::rows)) == image);
}

TEST_CASE("blanks, case, comments and line ends of rows do not matter") {
  CHECK(read("\xEF\xBB\xBF# copied by hand\r\n\r\n"
             "  10 :4000 f000 41 80 0280\t01 27 00 00 00 00 00 00= 48  \r\n; end\r\n")
            .at(0x12) == 0xF0);
}

TEST_CASE("a row that does not fit its code is named with its line") {
  CHECK(refused(row_00 + slip("27", "77") + row_20) ==
        "dump:2: row 10h does not fit its code: it says =48, these bytes give =DE");
}

TEST_CASE("two digits swapped are named") {
  CHECK_THAT(advice(slip("27", "72")), Contains("27 at 19h was read as 72"));
}

TEST_CASE("two neighbouring bytes swapped are named") {
  CHECK_THAT(advice(slip("01 27", "27 01")), Contains("27 and 01 at 18h and 19h were swapped"));
}

TEST_CASE("a digit taken for one that looks like it is named") {
  CHECK_THAT(advice(slip("80 02", "B0 02")), Contains("80 at 15h was read as B0"));
  CHECK_THAT(advice(slip("F0", "FD")), Contains("F0 at 12h was read as FD"));
  CHECK_THAT(advice(slip("80 01", "30 01")), Contains("80 at 17h was read as 30"));
}

TEST_CASE("two digits swapped across neighbouring bytes are named") {
  CHECK_THAT(advice(slip("80 02 80", "80 08 20")), Contains("02 80 at 16h was read as 08 20"));
}

TEST_CASE("a wrong row address is named") {
  CHECK_THAT(advice(slip("10:", "70:")), Contains("this is row 10h, read as 70h"));
  CHECK_THAT(refused(slip("10:", "18:")), Contains("18h is no row address"));
  CHECK_THAT(advice(slip("10:", "18:")), Contains("this is row 10h, read as 18h"));
}

TEST_CASE("a misread code is named") {
  CHECK_THAT(advice(slip("=48", "=84")), Contains("the code =48 was read as =84"));
  CHECK_THAT(advice(slip("=48", "=4B")), Contains("the code =48 was read as =4B"));
  CHECK_THAT(advice(slip("=48", "=49")), Contains("the code =48 was read as =49"));
}

TEST_CASE("a byte that could not be read is given back by the code") {
  CHECK_THAT(advice(slip("27", "??")), Contains("the unknown byte at 19h is 27"));
}

TEST_CASE("one explanation is called likely, more are listed, three at most") {
  CHECK(advice(slip("27", "72")) == "the likely slip: 27 at 19h was read as 72");
  const std::string many = advice(slip("00 00 00 00 00 00 =", "00 00 00 00 00 05 ="));
  CHECK_THAT(many, Contains("one of these would explain it") &&
                       Contains("or the code itself was miscopied"));
}

TEST_CASE("a row with more than one wrong digit asks for the whole row") {
  const std::string text = advice(slip("40 00 F0 00 41", "19 73 5C 3E 41"));
  CHECK_THAT(text, StartsWith("compare "));
}

TEST_CASE("a letter in place of a digit is named with the likely digit") {
  CHECK(refused(slip("40 ", "4O ")) == "dump:1: row 10h has a letter in place of a digit");
  CHECK(advice(slip("40 ", "4O ")) == "O at 10h is likely 0; with that the row fits its code");
  CHECK(advice(slip("41 80", "4l 8O")) ==
        "l at 14h is likely 1, O at 15h is likely 0; with that the row fits its code");
  CHECK_THAT(advice(slip("10:", "I0:")), StartsWith("I at the row address is likely 1; with that"));
  CHECK_THAT(advice(slip("=48", "=4S")), StartsWith("S at the code is likely 5; even so"));
  CHECK_THAT(advice(slip("27", "Z7")), StartsWith("Z at 19h is likely 2; with that"));
}

TEST_CASE("rows that are no rows are refused with their line") {
  CHECK_THAT(refused(row_00 + slip(" 27", "")), StartsWith("dump:2: row \"10\" has 15 bytes"));
  CHECK_THAT(refused(slip(" 27", " 27 27")), Contains("row \"10\" has 17 bytes"));
  CHECK_THAT(refused(slip("27", "2")), Contains("\"2\" has an odd number of digits"));
  CHECK_THAT(refused(slip("27", "2?")), Contains("\"2?\" at 19h is half a byte"));
  CHECK_THAT(refused(slip("27", "2X")), Contains("\"2X\" at 19h is not two hex digits"));
  CHECK_THAT(refused(slip("=48", "=")), Contains("no code"));
  CHECK_THAT(refused(slip("=48", "")), Contains("row \"10\" has no code"));
  CHECK_THAT(refused(slip("10:", "10")), Contains("no colon"));
  CHECK_THAT(refused(slip("10:", "010:")), Contains("\"010\" is no row address"));
  CHECK_THAT(refused("# nothing\n"), Contains("no bytes"));
}

// Code computed with an independent CRC-8 in Python.
TEST_CASE("a row past the chip is refused although it fits its code") {
  CHECK_THAT(refused("80: 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 =15"),
             Contains("80h is no row address"));
}

TEST_CASE("a row given twice must be the same") {
  CHECK(read(row_10 + row_10).at(0x10) == 0x40);
  CHECK_THAT(refused(row_10 + "10: 41 00 F0 00 41 80 02 80 01 27 00 00 00 00 00 00 =4A\n"),
             StartsWith("dump:2: "));
}

TEST_CASE("every single wrong digit of a row is found") {
  const std::string digits = "0123456789ABCDEF";
  for (std::size_t i = 0; i + 1 < row_10.size(); ++i) {
    if (digits.find(row_10[i]) == std::string::npos) continue;
    for (const char digit : digits) {
      if (digit == row_10[i]) continue;
      std::string row = row_10;
      row[i] = digit;
      CHECK_THAT(refused(row), StartsWith("dump:1: "));
    }
  }
}
