#include "forms/code_text.h"

#include <catch2/catch.hpp>

#include "forms/samples.h"

using namespace rtcmend;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

// Checks computed with an independent CRC-16/IBM-3740 (binascii.crc_hqx of Python).
const std::string digits =
    "210058000500051502942602508000004000F000418002800127000000000000"
    "0000000000000000000000000000029B8001190041422043207C3E233D2E2D7F";
const std::string zeros(128, '0');
const std::string whole = "RTCMEND1/64/00/" + digits + "/B0D4/AD39";
const std::string low = "RTCMEND1/128/00/" + digits + "/989F/A3CC";
const std::string high = "RTCMEND1/128/40/" + zeros + "/989F/E448";
/// The same chip with 01h in its last byte.
const std::string other_low = "RTCMEND1/128/00/" + digits + "/88BE/7437";
const std::string other_high = "RTCMEND1/128/40/" + zeros.substr(1) + "1/88BE/8BD2";

Image read(const std::string& text) {
  return read_dump(text, "dump").image;
}

std::string with(std::string text, const std::string& right, const std::string& wrong) {
  const auto at = text.find(right);
  REQUIRE(at != std::string::npos);
  return text.replace(at, right.size(), wrong);
}

}  // namespace

TEST_CASE("a chip of 64 bytes is one code") {
  CHECK(write_dump(sample_64(), Form::code_text) == whole + "\n");
  CHECK(read(whole) == sample_64());
}

TEST_CASE("a chip of 128 bytes is two codes, read in either order and twice over") {
  CHECK(write_dump(sample_128(), Form::code_text) == low + "\n" + high + "\n");
  CHECK(read(low + "\n" + high) == sample_128());
  CHECK(read(high + "\n" + low + "\n" + high + "\n") == sample_128());
}

TEST_CASE("a code has no more letters than version 5-L of a QR code takes") {
  CHECK(low.size() == 154);
  CHECK(whole.size() == 153);
}

TEST_CASE("unknown bytes have a sign of their own") {
  const std::string text =
      "RTCMEND1/64/00/XXXXXXXXXXXXXXXXXXXXXXXXXXXX" + digits.substr(28) + "/B532/53CA";
  CHECK(write_dump(ram_part_of(sample_64()), Form::code_text) == text + "\n");
  CHECK(read(text) == ram_part_of(sample_64()));
}

TEST_CASE(
    "codes are found among what a reader of photographs says, in either case, broken over lines") {
  CHECK(read("QR-Code:" + whole + "\nscanned 1 barcode symbols from 1 images in 0.04 seconds\n") ==
        sample_64());
  CHECK(read("\xEF\xBB\xBF 2031-05-14,QR_CODE,\"" + high + "\"\r\n2031-05-14,QR_CODE,\"" + low +
             "\"\r\n") == sample_128());
  CHECK(read("{\"format\": \"QR_CODE\", \"text\": \"" + whole + "\"}") == sample_64());
  std::string small = whole;
  for (char& c : small) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  CHECK(read(small) == sample_64());
  CHECK(read("> " + whole.substr(0, 70) + "\n  " + whole.substr(70, 70) + "\n  " +
             whole.substr(140) + "\nSent from a pocket\n") == sample_64());
}

TEST_CASE("the half whose code was not read is unknown, and warned of") {
  const Dump dump = read_dump("a\n" + high, "dump");
  CHECK(dump.image.size() == 128);
  CHECK_FALSE(dump.image.known(0x3F));
  CHECK(dump.image.at(0x40) == 0x00);
  REQUIRE(dump.remarks.warnings.size() == 1);
  CHECK(dump.remarks.warnings[0] ==
        "only code 2 of 2 is here, the other was not read: 00h to 3Fh are unknown");
  const Dump other = read_dump(low, "dump");
  CHECK(other.image.known(0x3F));
  CHECK_FALSE(other.image.known(0x40));
  CHECK_THAT(other.remarks.warnings.at(0),
             StartsWith("only code 1 of 2") && Contains("40h to 7Fh are unknown"));
}

TEST_CASE("a code that is cut off is refused with its line and where it ends") {
  CHECK(refusal("found\n" + whole.substr(0, 60)) ==
        "dump:2: the code is cut off or broken after 45 of its 128 digits of bytes");
  CHECK_THAT(remedy(whole.substr(0, 60)), Contains("show the code again"));
  CHECK_THAT(refusal(whole.substr(0, 60) + "\nscanned 1"),
             Contains("after 45 of its 128 digits of bytes: \"S\" stands there"));
  CHECK_THAT(refusal(whole.substr(0, 11)), Contains("cut off or broken within its size"));
  CHECK_THAT(refusal(whole.substr(0, 145)), Contains("cut off or broken within its chip's check"));
  CHECK_THAT(refusal(whole.substr(0, 150)), Contains("cut off or broken within its check"));
  CHECK_THAT(refusal(whole.substr(0, 90) + whole.substr(92)),
             Contains("has 126 digits of bytes, and 128 make its 64 bytes"));
  CHECK_THAT(refusal(with(whole, "5800", "580000")), Contains("has 130 digits of bytes"));
}

TEST_CASE("one changed character is refused, with the likely slip where only one fits") {
  const std::string wrong = with(whole, "F000418", "F0004B8");
  CHECK(refusal("\n" + wrong) ==
        "dump:2: the code of 00h to 3Fh does not fit its check: it says AD39, its text gives 96FC");
  CHECK(remedy(wrong) == "the likely slip: 1 at 14h was read as B");
  CHECK(remedy(with(whole, "/AD39", "/AD89")) == "the likely slip: 3 in its checks was read as 8");
  CHECK_THAT(remedy(with(whole, "F000418", "0F04081")),
             StartsWith("a character was changed, lost"));
}

TEST_CASE("no single wrong character of a code is taken, nor read as another form") {
  for (const std::string& text : {whole, high})
    for (std::size_t i = 0; i < text.size(); ++i)
      for (const char c : std::string("0123456789ABCDEFOXZ/-. \n")) {
        if (text[i] == c) continue;
        std::string wrong = text;
        wrong[i] = c;
        CAPTURE(wrong);
        CHECK_FALSE(refusal(wrong).empty());
      }
}

TEST_CASE("no single lost character of a code is taken, nor a swap of two") {
  for (std::size_t i = 0; i < low.size(); ++i) {
    CHECK_FALSE(refusal(low.substr(0, i) + low.substr(i + 1)).empty());
    std::string swapped = low;
    if (i + 1 == low.size() || low[i] == low[i + 1]) continue;
    std::swap(swapped[i], swapped[i + 1]);
    CHECK_FALSE(refusal(swapped).empty());
  }
}

TEST_CASE("a second code of another chip is refused with its line") {
  CHECK(refusal(low + "\n" + other_high) ==
        "dump:2: this code is of another chip or another reading than the one in line 1: its "
        "chip's check is 88BE, and there 989F");
  CHECK_THAT(remedy(low + "\n" + other_high), Contains("all from one showing"));
  CHECK(refusal(low + "\nthen\n" + whole) ==
        "dump:3: this code is of a chip of 64 bytes, the one in line 1 of a chip of 128");
  CHECK(read(other_low + "\n" + other_high).at(0x7F) == 0x01);
}

// Both codes fit their own checks, and neither is the one that the chip's check was made with.
TEST_CASE("bytes that do not fit the chip's check are refused") {
  CHECK_THAT(refusal("RTCMEND1/64/00/" + digits + "/0000/3C30"),
             Contains("do not fit the chip's check: it says 0000, they give B0D4"));
}

TEST_CASE("what a code cannot say is refused by name") {
  CHECK(refusal("RTCMEND2/64/00/" + digits + "/B0D4/30AB") ==
        "dump:1: this code is written in version 2 of the form, and version 1 is known");
  CHECK_THAT(refusal("RTCMEND1/64/40/" + digits + "/B0D4/07FB"),
             Contains("\"40\" is no first address on a chip of 64 bytes"));
  CHECK_THAT(refusal("RTCMEND1/64/00/" + digits.substr(0, 127) + "X/432B/2B42"),
             Contains("\"7X\" at 3Fh is half a byte"));
  CHECK_THAT(refusal("RTCMEND1/65/00/" + digits + "/B0D4/AD39"), Contains("\"65\" is no size"));
  CHECK_THAT(refusal("RTCMEXD1/64/00/" + digits + "/B0D4/AD39"),
             Contains("the head of a code is damaged: a code begins with RTCMEND1/"));
  CHECK_THAT(refusal("nothing here", Form::code_text), Contains("holds no code of a chip"));
}

TEST_CASE("a note of the project's own JSON may hold a code") {
  WriteOptions options;
  options.note = high;
  CHECK(read(write_dump(sample_64(), Form::json, options)) == sample_64());
}

TEST_CASE("a part of what the codes hold is taken when it is asked for") {
  ReadingOptions options;
  options.size = 64;
  CHECK(read_dump(low + "\n" + high, "dump", options).image == sample_64());
}
