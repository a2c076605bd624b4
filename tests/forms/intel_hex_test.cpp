#include <catch2/catch.hpp>

#include "forms/samples.h"

using namespace rtcmend;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

// Made by GNU objcopy -O ihex from the sample.
const std::string sample_text =
    ":1000000021005800050005150294260250800000CA\n"
    ":100010004000F00041800280012700000000000045\n"
    ":100020000000000000000000000000000000029B33\n"
    ":100030008001190041422043207C3E233D2E2D7F2C\n"
    ":00000001FF\n";

Image read(const std::string& text) {
  return read_dump(text, "dump", Form::intel_hex).image;
}

}  // namespace

TEST_CASE("Intel HEX is read and written as objcopy writes it") {
  CHECK(read(sample_text) == sample_64());
  CHECK(write_dump(sample_64(), Form::intel_hex) == sample_text);
}

// Widely printed example record, check byte verified (IntelHex).
TEST_CASE("the example record of three bytes at 30h is read") {
  const Image image = read(":0300300002337A1E\n:00000001FF\n");
  CHECK(image.size() == 64);
  CHECK(image.at(0x30) == 0x02);
  CHECK(image.at(0x31) == 0x33);
  CHECK(image.at(0x32) == 0x7A);
  CHECK(image.unknown().size() == 61);
}

// Widely printed example record, check byte verified (IntelHex).
TEST_CASE("the example record of text at 10h is read") {
  const Image image = read(":0B0010006164647265737320676170A7\r\n:00000001FF\r\n");
  CHECK(image.at(0x10) == 'a');
  CHECK(image.at(0x17) == ' ');
  CHECK(image.at(0x1A) == 'p');
  CHECK(image.unknown().size() == 53);
}

TEST_CASE("every wrong digit of the example records is found, with its line") {
  const std::string end = ":00000001FF\n";
  for (const std::string& record :
       {std::string(":0300300002337A1E"), std::string(":0B0010006164647265737320676170A7")}) {
    for (std::size_t i = 1; i < record.size(); ++i) {
      std::string wrong = record;
      wrong[i] = wrong[i] == '0' ? '1' : '0';
      CHECK_THAT(refusal("\n" + wrong + "\n" + end, Form::intel_hex), StartsWith("dump:2: "));
    }
  }
}

TEST_CASE("a wrong check byte names what the record needs") {
  CHECK(refusal(":0300300002337A1F\n:00000001FF\n", Form::intel_hex) ==
        "dump:1: the check byte is 1Fh, but the record's bytes need 1Eh");
}

// ":020000021200EA": segment 1200h, so that what follows counts from 12000h (IntelHex).
TEST_CASE("a segment moves the records behind it, here past the chip") {
  const std::string text = ":020000021200EA\n:0300300002337A1E\n:00000001FF\n";
  CHECK_THAT(refusal(text, Form::intel_hex), StartsWith("dump:2: address 12030h is past the chip"));
}

TEST_CASE("extended addresses of zero and start addresses change nothing") {
  const Image image = read(
      ":020000040000FA\n:0300300002337A1E\n:020000020000FC\n:0400000300003800C1\n"
      ":04000005000000CD2A\n:00000001FF\n");
  CHECK(image.at(0x30) == 0x02);
  CHECK(image.unknown().size() == 61);
}

// Offsets wrap within 64 KiB of their segment (IntelHex).
TEST_CASE("a record that runs over the end of its segment goes on at the beginning") {
  CHECK_THAT(refusal(":04FFFE001122334455\n:00000001FF\n", Form::intel_hex),
             StartsWith("dump:1: address FFFEh is past the chip"));
}

TEST_CASE("Intel HEX addresses past the chip are refused with their line") {
  const std::string end = "\n:00000001FF\n";
  CHECK_THAT(refusal(":01008000413E" + end, Form::intel_hex),
             StartsWith("dump:1: address 80h is past the chip"));
  CHECK_THAT(refusal(":02007F004142FC" + end, Form::intel_hex),
             StartsWith("dump:1: address 80h is past the chip"));
  CHECK_THAT(refusal(":020000040001F9\n:0100100040AF" + end, Form::intel_hex),
             StartsWith("dump:2: address 10010h is past the chip"));
}

TEST_CASE("the highest address decides between 64 and 128 bytes") {
  CHECK(read(":0300300002337A1E\n:00000001FF\n").size() == 64);
  CHECK(read(":01007F00413F\n:00000001FF\n").size() == 128);
}

TEST_CASE("records that overlap must agree") {
  CHECK(read(":0100100040AF\n:0100100040AF\n:00000001FF\n").at(0x10) == 0x40);
  CHECK(refusal(":0100100040AF\n:0100100041AE\n:00000001FF\n", Form::intel_hex) ==
        "dump:2: byte 10h is 41h here, but line 1 says 40h");
}

TEST_CASE("Intel HEX without its end, or with more behind it, is refused") {
  CHECK_THAT(refusal(":0100100040AF\n", Form::intel_hex), Contains(":00000001FF is missing"));
  CHECK_THAT(refusal(":00000001FF\n:0100100040AF\n", Form::intel_hex),
             StartsWith("dump:2: a line follows the end record"));
  CHECK_THAT(refusal(":00000001FF\n", Form::intel_hex), Contains("no bytes"));
}

TEST_CASE("broken records are refused with their line") {
  const std::string first = ":0100100040AF\n";
  const auto second_line = [&](const std::string& line) {
    const std::string text = refusal(first + line + "\n:00000001FF\n", Form::intel_hex);
    CHECK_THAT(text, StartsWith("dump:2: "));
    return text;
  };
  CHECK_THAT(second_line(":0100100040A"), Contains("odd number of hex digits"));
  CHECK_THAT(second_line(":01001000G0AF"), Contains("\"G\" is not a hex digit"));
  CHECK_THAT(second_line("0100100040AF"), Contains("does not begin with a colon"));
  CHECK_THAT(second_line(":0200100040AE"), Contains("says 2 data bytes, but holds 1"));
  CHECK_THAT(second_line(":0100"), Contains("cut short"));
  CHECK_THAT(second_line(":"), Contains("cut short"));
  CHECK_THAT(second_line(":00000006FA"), Contains("type 06 does not exist"));
  CHECK_THAT(second_line(":0100000101FD"), Contains("type 01 holds 0 data bytes, this one 1"));
  CHECK_THAT(second_line(":0100000201FC"), Contains("type 02 holds 2 data bytes, this one 1"));
}

TEST_CASE("lower case, CRLF, blanks behind and a byte order mark do not disturb Intel HEX") {
  const Image image = read("\xEF\xBB\xBF:0300300002337a1e  \r\n\r\n:00000001ff\r\n\x1A");
  CHECK(image.at(0x32) == 0x7A);
}

TEST_CASE("unknown bytes are left out of Intel HEX and come back unknown") {
  Image image = sample_64();
  image.forget(0x19);
  const std::string text = write_dump(image, Form::intel_hex);
  CHECK_THAT(text, Contains("\n:090010004000F000418002800173\n"));
  CHECK(read(text) == image);
  CHECK_THROWS_WITH(write_dump(Image(64), Form::intel_hex), Contains("no byte"));
}
