#include <catch2/catch.hpp>

#include "forms/samples.h"

// What programs print for the sample, copied from their output.

using namespace rtcmend;

namespace {

Image read(const std::string& text) {
  return read_dump(text, "dump", Form::hex).image;
}

}  // namespace

TEST_CASE("hexdump -C is read") {
  CHECK(read("00000000  21 00 58 00 05 00 05 15  02 94 26 02 50 80 00 00  |!.X.......&.P...|\n"
             "00000010  40 00 f0 00 41 80 02 80  01 27 00 00 00 00 00 00  |@...A....'......|\n"
             "00000020  00 00 00 00 00 00 00 00  00 00 00 00 00 00 02 9b  |................|\n"
             "00000030  80 01 19 00 41 42 20 43  20 7c 3e 23 3d 2e 2d 7f  |....AB C |>#=.-.|\n"
             "00000040\n") == sample_64());
}

TEST_CASE("hexdump -C with repeated rows left out is read") {
  CHECK(read("00000000  21 00 58 00 05 00 05 15  02 94 26 02 50 80 00 00  |!.X.......&.P...|\n"
             "00000010  40 00 f0 00 41 80 02 80  01 27 00 00 00 00 00 00  |@...A....'......|\n"
             "00000020  00 00 00 00 00 00 00 00  00 00 00 00 00 00 02 9b  |................|\n"
             "00000030  80 01 19 00 41 42 20 43  20 7c 3e 23 3d 2e 2d 7f  |....AB C |>#=.-.|\n"
             "00000040  00 00 00 00 00 00 00 00  00 00 00 00 00 00 00 00  |................|\n"
             "*\n"
             "00000080\n") == sample_128());
}

TEST_CASE("hexdump -C of 114 bytes is the RAM part: its addresses are offsets in the file") {
  CHECK(read("00000000  00 00 40 00 f0 00 41 80  02 80 01 27 00 00 00 00  |..@...A....'....|\n"
             "00000010  00 00 00 00 00 00 00 00  00 00 00 00 00 00 00 00  |................|\n"
             "00000020  02 9b 80 01 19 00 41 42  20 43 20 7c 3e 23 3d 2e  |......AB C |>#=.|\n"
             "00000030  2d 7f 00 00 00 00 00 00  00 00 00 00 00 00 00 00  |-...............|\n"
             "00000040  00 00 00 00 00 00 00 00  00 00 00 00 00 00 00 00  |................|\n"
             "*\n"
             "00000070  00 00                                             |..|\n"
             "00000072\n") == ram_part_of(sample_128()));
}

TEST_CASE("xxd is read") {
  CHECK(read("00000000: 2100 5800 0500 0515 0294 2602 5080 0000  !.X.......&.P...\n"
             "00000010: 4000 f000 4180 0280 0127 0000 0000 0000  @...A....'......\n"
             "00000020: 0000 0000 0000 0000 0000 0000 0000 029b  ................\n"
             "00000030: 8001 1900 4142 2043 207c 3e23 3d2e 2d7f  ....AB C |>#=.-.\n") ==
        sample_64());
}

TEST_CASE("xxd of 50 bytes is the RAM part") {
  CHECK(read("00000000: 0000 4000 f000 4180 0280 0127 0000 0000  ..@...A....'....\n"
             "00000010: 0000 0000 0000 0000 0000 0000 0000 0000  ................\n"
             "00000020: 029b 8001 1900 4142 2043 207c 3e23 3d2e  ......AB C |>#=.\n"
             "00000030: 2d7f                                     -.\n") ==
        ram_part_of(sample_64()));
}

TEST_CASE("xxd -p is read") {
  CHECK(read("210058000500051502942602508000004000f00041800280012700000000\n"
             "00000000000000000000000000000000029b8001190041422043207c3e23\n"
             "3d2e2d7f\n") == sample_64());
}

TEST_CASE("od -An -tx1 is read") {
  CHECK(read(" 21 00 58 00 05 00 05 15 02 94 26 02 50 80 00 00\n"
             " 40 00 f0 00 41 80 02 80 01 27 00 00 00 00 00 00\n"
             " 00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 9b\n"
             " 80 01 19 00 41 42 20 43 20 7c 3e 23 3d 2e 2d 7f\n") == sample_64());
}

TEST_CASE("od -tx1 with its octal addresses is read") {
  CHECK(read("0000000 21 00 58 00 05 00 05 15 02 94 26 02 50 80 00 00\n"
             "0000020 40 00 f0 00 41 80 02 80 01 27 00 00 00 00 00 00\n"
             "0000040 00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 9b\n"
             "0000060 80 01 19 00 41 42 20 43 20 7c 3e 23 3d 2e 2d 7f\n"
             "0000100 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00\n"
             "*\n"
             "0000200\n") == sample_128());
}

TEST_CASE("od -Ax -tx1z with its ASCII column in angles is read") {
  CHECK(read("000000 21 00 58 00 05 00 05 15 02 94 26 02 50 80 00 00  >!.X.......&.P...<\n"
             "000010 40 00 f0 00 41 80 02 80 01 27 00 00 00 00 00 00  >@...A....'......<\n"
             "000020 00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 9b  >................<\n"
             "000030 80 01 19 00 41 42 20 43 20 7c 3e 23 3d 2e 2d 7f  >....AB C |>#=.-.<\n"
             "000040\n") == sample_64());
}

TEST_CASE("hexdump without options prints little-endian words, and they are turned round") {
  CHECK(read("0000000 0021 0058 0005 1505 9402 0226 8050 0000\n"
             "0000010 0040 00f0 8041 8002 2701 0000 0000 0000\n"
             "0000020 0000 0000 0000 0000 0000 0000 0000 9b02\n"
             "0000030 0180 0019 4241 4320 7c20 233e 2e3d 7f2d\n"
             "0000040\n") == sample_64());
}

TEST_CASE("od -x prints the same words behind octal addresses") {
  CHECK(read("0000000 0021 0058 0005 1505 9402 0226 8050 0000\n"
             "0000020 0040 00f0 8041 8002 2701 0000 0000 0000\n"
             "0000040 0000 0000 0000 0000 0000 0000 0000 9b02\n"
             "0000060 0180 0019 4241 4320 7c20 233e 2e3d 7f2d\n"
             "0000100\n") == sample_64());
}

TEST_CASE("srec_cat -hex-dump, which shows the lower seven bits behind #, is read") {
  CHECK(read("00000000: 21 00 58 00 05 00 05 15 02 94 26 02 50 80 00 00  #!.X.......&.P...\n"
             "00000010: 40 00 F0 00 41 80 02 80 01 27 00 00 00 00 00 00  #@.p.A....'......\n"
             "00000020: 00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 9B  #................\n"
             "00000030: 80 01 19 00 41 42 20 43 20 7C 3E 23 3D 2E 2D 7F  #....AB C |>#=.-.\n") ==
        sample_64());
}

// The style of DOS debuggers, from memory.
TEST_CASE("a debugger's d output is read from its segment and offset") {
  CHECK(read("-d 100 13f\n"
             "1234:0100  21 00 58 00 05 00 05 15-02 94 26 02 50 80 00 00   !.X.......&.P...\n"
             "1234:0110  40 00 F0 00 41 80 02 80-01 27 00 00 00 00 00 00   @...A....'......\n"
             "1234:0120  00 00 00 00 00 00 00 00-00 00 00 00 00 00 02 9B   ................\n"
             "1234:0130  80 01 19 00 41 42 20 43-20 7C 3E 23 3D 2E 2D 7F   ....AB C |>#=.-.\n"
             "-q\n") == sample_64());
}

TEST_CASE("a debugger's d output without its ASCII column, from an odd place, is read") {
  CHECK(read("0B2F:0200  21 00 58 00 05 00 05 15-02 94 26 02 50 80 00 00\r\n"
             "0B2F:0210  40 00 F0 00 41 80 02 80-01 27 00 00 00 00 00 00\r\n"
             "0B2F:0220  00 00 00 00 00 00 00 00-00 00 00 00 00 00 02 9B\r\n"
             "0B2F:0230  80 01 19 00 41 42 20 43-20 7C 3E 23 3D 2E 2D 7F\r\n") == sample_64());
}

TEST_CASE("a debugger that starts within a row leaves the bytes in front blank") {
  const std::string next = "1234:0110  40 00 F0 00 41 80 02 80-01 27 00 00   @...A....'..\n";
  // Two blanks, and three for each of the fourteen bytes that were not asked for.
  const Image image = read("1234:0100" + std::string(2 + 14 * 3, ' ') + "00 12   ..\n" + next);
  CHECK_FALSE(image.known(0x0D));
  CHECK(image.at(0x0E) == 0x00);
  CHECK(image.at(0x0F) == 0x12);
  CHECK(image.at(0x10) == 0x40);
  CHECK(image.at(0x19) == 0x27);
  CHECK_FALSE(image.known(0x1C));
  CHECK_THROWS_WITH(read("1234:0100" + std::string(2 + 14 * 3 + 1, ' ') + "00 12   ..\n" + next),
                    Catch::Contains("dump:1: the blanks in front of the first byte"));
}

TEST_CASE("bytes with marks and commas are read") {
  std::string prefixed;
  std::string suffixed;
  std::string commas;
  std::string dollars;
  for (const unsigned byte : sample_bytes) {
    const char* digits = "0123456789ABCDEF";
    const std::string two{digits[byte >> 4], digits[byte & 0xF]};
    prefixed += "0x" + two + ", ";
    suffixed += "0" + two + "h ";
    commas += two + ",";
    dollars += "$" + two + "\n";
  }
  CHECK(read(prefixed) == sample_64());
  CHECK(read(suffixed) == sample_64());
  CHECK(read(commas) == sample_64());
  CHECK(read(dollars) == sample_64());
}

TEST_CASE("one address and byte a line is read, whatever stands between them") {
  for (const std::string& between : {std::string(": "), std::string("="), std::string("h = ")}) {
    const Image image = read("10" + between + "40\n12" + between + "F0\n19" + between + "27\n");
    CHECK(image.size() == 64);
    CHECK(image.at(0x10) == 0x40);
    CHECK(image.at(0x12) == 0xF0);
    CHECK(image.at(0x19) == 0x27);
    CHECK(image.unknown().size() == 61);
  }
}

TEST_CASE("addresses of two digits without a colon show by following one another") {
  CHECK(read("00 21 00 58 00 05 00 05 15 02 94 26 02 50 80 00 00\n"
             "10 40 00 F0 00 41 80 02 80 01 27 00 00 00 00 00 00\n"
             "20 00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 9B\n"
             "30 80 01 19 00 41 42 20 43 20 7C 3E 23 3D 2E 2D 7F\n") == sample_64());
  const Image pairs = read("10 40\n11 00\n12 F0\n13 00\n14 41\n");
  CHECK(pairs.at(0x12) == 0xF0);
  CHECK(pairs.unknown().size() == 59);
}

TEST_CASE("the heading of a hex editor is passed over") {
  CHECK(read("Offset(h) 00 01 02 03\n00000010  40 00 F0 00\n").at(0x12) == 0xF0);
}

TEST_CASE("od -Ad prints decimal addresses") {
  CHECK(read("0000000 21 00 58 00 05 00 05 15 02 94 26 02 50 80 00 00\n"
             "0000016 40 00 f0 00 41 80 02 80 01 27 00 00 00 00 00 00\n"
             "0000032 00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 9b\n"
             "0000048 80 01 19 00 41 42 20 43 20 7c 3e 23 3d 2e 2d 7f\n"
             "0000064\n") == sample_64());
}

TEST_CASE("where nearly all is left out, the address behind the last byte tells how it is meant") {
  const std::string zeros = " 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00\n*\n";
  const Image small(std::vector<std::uint8_t>(64, 0)), large(std::vector<std::uint8_t>(128, 0));
  CHECK(read("0000000" + zeros + "0000064\n") == small);  // od -Ad
  CHECK(read("0000000" + zeros + "0000100\n") == small);  // od
  CHECK(read("0000000" + zeros + "0000040\n") == small);  // hexdump
  CHECK(read("0000000" + zeros + "0000128\n") == large);  // od -Ad
  CHECK(read("0000000" + zeros + "0000200\n") == large);  // od
  CHECK(read("0000000" + zeros + "0000080\n") == large);  // hexdump
}

TEST_CASE("od -Ax -tx2 prints six digits and little-endian words") {
  CHECK(read("000000 0021 0058 0005 1505 9402 0226 8050 0000\n"
             "000010 0040 00f0 8041 8002 2701 0000 0000 0000\n"
             "000020 0000 0000 0000 0000 0000 0000 0000 9b02\n"
             "000030 0180 0019 4241 4320 7c20 233e 2e3d 7f2d\n"
             "000040\n") == sample_64());
}

TEST_CASE("od -Ax of 50 bytes is the RAM part: its addresses are offsets in the file") {
  CHECK(read("000000 00 00 40 00 f0 00 41 80 02 80 01 27 00 00 00 00\n"
             "000010 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00\n"
             "000020 02 9b 80 01 19 00 41 42 20 43 20 7c 3e 23 3d 2e\n"
             "000030 2d 7f\n"
             "000032\n") == ram_part_of(sample_64()));
}
