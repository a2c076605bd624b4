#include <catch2/catch.hpp>

#include "forms/samples.h"

using namespace rtcmend;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

// The example of M68000PRM, appendix C.
const std::string published[] = {
    "S00600004844521B",
    "S1130000285F245F2212226A000424290008237C2A",
    "S11300100002000800082629001853812341001813",
    "S113002041E900084E42234300182342000824A952",
    "S107003000144ED492",
    "S9030000FC",
};

std::string published_text() {
  std::string text;
  for (const std::string& record : published) text += record + "\n";
  return text;
}

Image read(const std::string& text) {
  return read_dump(text, "dump", Form::s_record).image;
}

std::string refused(const std::string& text) {
  return refusal(text, Form::s_record);
}

}  // namespace

TEST_CASE("the published S-record example is read, M68000PRM") {
  const Image image = read(published_text());
  CHECK(image.size() == 64);
  CHECK(image.at(0x00) == 0x28);
  CHECK(image.at(0x0F) == 0x7C);
  CHECK(image.at(0x10) == 0x00);
  CHECK(image.at(0x20) == 0x41);
  CHECK(image.at(0x33) == 0xD4);
  CHECK_FALSE(image.known(0x34));
  CHECK(image.unknown().size() == 12);
}

TEST_CASE("every wrong digit of the published example is found, with its line") {
  for (std::size_t line = 0; line < std::size(published); ++line) {
    for (std::size_t i = 2; i < published[line].size(); ++i) {
      std::string text;
      for (std::size_t other = 0; other < std::size(published); ++other) {
        std::string record = published[other];
        if (other == line) record[i] = record[i] == '0' ? '1' : '0';
        text += record + "\n";
      }
      CHECK_THAT(refused(text), StartsWith("dump:" + std::to_string(line + 1) + ": "));
    }
  }
}

TEST_CASE("a wrong check byte of an S-record names what the record needs") {
  CHECK(refused("S1040010 40AB\n").substr(0, 8) == "dump:1: ");
  CHECK(refused("S104001040AA\nS9030000FC\n") ==
        "dump:1: the check byte is AAh, but the record's bytes need ABh");
}

// The data records are those of GNU objcopy -O srec; header, count and end by M68000PRM.
TEST_CASE("S-records are written with a header, their count and an end") {
  CHECK(write_dump(sample_64(), Form::s_record) ==
        "S00A00007274636D656E6408\n"
        "S113000021005800050005150294260250800000C6\n"
        "S11300104000F00041800280012700000000000041\n"
        "S11300200000000000000000000000000000029B2F\n"
        "S11300308001190041422043207C3E233D2E2D7F28\n"
        "S5030004F8\n"
        "S9030000FC\n");
}

TEST_CASE("S1, S2 and S3 records may be mixed, and S7 or S8 may end them") {
  const std::string text = "S104001040AB\nS3060000001141A7\n";
  CHECK(read(text + "S70500000000FA\n").at(0x11) == 0x41);
  CHECK(read(text + "S804000000FB\n").at(0x10) == 0x40);
  CHECK(read("S20500001040AA\r\ns9030000fc\r\n").at(0x10) == 0x40);
}

TEST_CASE("the count record must agree with the records before it") {
  CHECK(read("S104001040AB\nS5030001FB\nS9030000FC\n").at(0x10) == 0x40);
  CHECK(refused("S104001040AB\nS5030002FA\nS9030000FC\n") ==
        "dump:2: the count record says 2 data records, but 1 came before it");
  CHECK_THAT(refused("S5030001FB\nS104001040AB\nS9030000FC\n"), StartsWith("dump:1: the count"));
}

TEST_CASE("S-records without an end are read only when their count shows that nothing is missing") {
  CHECK(read("S104001040AB\nS5030001FB\n").at(0x10) == 0x40);
  CHECK_THAT(refused("S104001040AB\n"), Contains("the end record (S7, S8 or S9) is missing"));
  CHECK_THAT(refused("S104001040AB\nS9030000FC\nS104001040AB\n"),
             StartsWith("dump:3: a line follows the end record"));
  CHECK_THAT(refused("S104001040AB\nS5030001FB\nS104001040AB\n"),
             StartsWith("dump:3: only an end"));
}

TEST_CASE("S-record addresses past the chip are refused with their line") {
  CHECK_THAT(refused("S104001040AB\nS1040080413A\nS9030000FC\n"),
             StartsWith("dump:2: address 80h is past"));
  CHECK_THAT(refused("S105007F4142F8\nS9030000FC\n"), StartsWith("dump:1: address 80h is past"));
  CHECK_THAT(refused("S306100000104198\nS9030000FC\n"),
             StartsWith("dump:1: address 10000010h is past"));
}

TEST_CASE("S-records that overlap must agree") {
  CHECK(refused("S104001040AB\nS104001041AA\nS9030000FC\n") ==
        "dump:2: byte 10h is 41h here, but line 1 says 40h");
}

TEST_CASE("broken S-records are refused with their line") {
  CHECK_THAT(refused("S4030000FC\n"), StartsWith("dump:1: record type \"S4\" is not one of"));
  CHECK_THAT(refused("S604000001FA\n"), StartsWith("dump:1: record type \"S6\" is not one of"));
  CHECK_THAT(refused("\nS10400104\n"), Contains("dump:2: an odd number of hex digits"));
  CHECK_THAT(refused("S104001O40AB\n"), Contains("\"O\" is not a hex digit"));
  CHECK_THAT(refused("S105001040AA\n"), Contains("says that 5 bytes follow, but 4 do"));
  CHECK_THAT(refused("S1\n"), Contains("cut short"));
  CHECK_THAT(refused("S\n"), Contains("does not begin with S and a digit"));
  CHECK_THAT(refused("X104001040AB\n"), Contains("does not begin with S and a digit"));
}

TEST_CASE("unknown bytes are left out of S-records and come back unknown") {
  Image image = sample_64();
  image.forget(0x19);
  const std::string text = write_dump(image, Form::s_record);
  CHECK_THAT(text, Contains("\nS10C00104000F00041800280016F\n"));
  CHECK_THAT(text, Contains("\nS5030005F7\n"));
  CHECK(read(text) == image);
}
