#include <catch2/catch.hpp>

#include "forms/samples.h"

using namespace rtcmend;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

Image read(const std::string& text) {
  return read_dump(text, "dump", Form::hex).image;
}

std::string refused(const std::string& text) {
  return refusal(text, Form::hex);
}

std::string repeated(std::size_t count, const std::string& piece) {
  std::string text;
  for (std::size_t i = 0; i < count; ++i) text += piece;
  return text;
}

}  // namespace

TEST_CASE("hex is written with an address and 16 bytes a line, unknown ones as ??") {
  Image image = sample_64();
  image.forget(0x00);
  image.forget(0x19);
  CHECK(write_dump(image, Form::hex) ==
        "00: ?? 00 58 00 05 00 05 15 02 94 26 02 50 80 00 00\n"
        "10: 40 00 F0 00 41 80 02 80 01 ?? 00 00 00 00 00 00\n"
        "20: 00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 9B\n"
        "30: 80 01 19 00 41 42 20 43 20 7C 3E 23 3D 2E 2D 7F\n");
  CHECK(read(write_dump(image, Form::hex)) == image);
}

TEST_CASE("hex keeps the size of a chip whose upper half is unknown") {
  Image image(128);
  image.set(0x10, 0x40);
  CHECK(read(write_dump(image, Form::hex)) == image);
}

TEST_CASE("addresses decide, and what they leave out is unknown") {
  const Image image = read("30: 80 01\n10: 40 00 ?? -- 41\n");
  CHECK(image.size() == 64);
  CHECK(image.at(0x10) == 0x40);
  CHECK_FALSE(image.known(0x12));
  CHECK_FALSE(image.known(0x13));
  CHECK(image.at(0x14) == 0x41);
  CHECK(image.at(0x31) == 0x01);
  CHECK(image.unknown().size() == 59);
  CHECK(read("0x7F: 12\n").size() == 128);
}

TEST_CASE("short addresses are those of the chip, even of exactly 50 bytes") {
  const std::string row = " 11 11 11 11 11 11 11 11 11 11 11 11 11 11 11 11\n";
  const Image image = read("00:" + row + "10:" + row + "20:" + row + "30: 11 11\n");
  CHECK(image.at(0x00) == 0x11);
  CHECK_FALSE(image.known(0x32));
}

TEST_CASE("bytes without addresses go by their count, as in a raw file") {
  CHECK(read(repeated(64, "12 ")).at(0) == 0x12);
  CHECK(read(repeated(128, "12\n")).size() == 128);
  ReadingOptions as_written;
  as_written.order = ByteOrder::high_first;
  const Image ram = read_dump(repeated(25, "12CD "), "dump", as_written).image;
  CHECK(ram.size() == 64);
  CHECK_FALSE(ram.known(0x0D));
  CHECK(ram.at(0x0E) == 0x12);
  CHECK(ram.at(0x0F) == 0xCD);
  CHECK(read(repeated(114, "12,")).size() == 128);
  CHECK(read("?? " + repeated(63, "12 ")).unknown() == Addresses{0});
}

TEST_CASE("wrong counts are refused with the sizes that there are") {
  CHECK_THAT(refused(repeated(60, "12 ")), Contains("it holds 60 bytes"));
  CHECK_THAT(remedy(repeated(60, "12 "), Form::hex),
             Contains("64 or 128") && Contains("50 or 114"));
  CHECK_THAT(refused(repeated(128, "12 ") + "\n13\n"), Contains("it holds 129 bytes"));
  CHECK_THAT(refused("# only this\n"), Contains("no bytes"));
}

TEST_CASE("odd digits and garbage are refused with their line") {
  CHECK(refused("12 34\n5 67\n") == "dump:2: \"5\" has an odd number of hex digits");
  CHECK(refused("12 34\n\n567 89\n") == "dump:3: \"567\" has an odd number of hex digits");
  CHECK(refused("12 34\n5G 67\n") == "dump:2: \"5G\" is not hex");
  CHECK(refused("12 34\n0x123\n") == "dump:2: \"0x123\" does not fit a byte");
  CHECK(refused("10: 12 34\n20: hello\n") == "dump:2: \"hello\" is not hex");
  CHECK(refused("12 34 zz\n") == "dump:1: \"zz\" is not hex");
  CHECK(refused("12 34 5?\n") == "dump:1: \"5?\" is not hex");
  CHECK(refused("12 0x 34\n") == "dump:1: \"0x\" is not hex");
}

TEST_CASE("addresses of hex text past the chip are refused with their line") {
  CHECK_THAT(refused("10: 40\n80: 12\n"), StartsWith("dump:2: address 80h is past the chip"));
  CHECK_THAT(refused("78: 00 01 02 03 04 05 06 07 08\n"),
             StartsWith("dump:1: address 80h is past the chip"));
  CHECK_THAT(refused("00000100  12 34\n"), StartsWith("dump:1: address 100h is past the chip"));
  CHECK_THAT(refused("FFFFFFFF: 12\n"), StartsWith("dump:1: address FFFFFFFFh is past"));
  CHECK_THAT(refused("FFFFFFFFFFFFFFFFFF: 12\n"), Contains("no address of a chip"));
}

TEST_CASE("lines that disagree are refused") {
  CHECK(read("10: 40\n10: 40\n").at(0x10) == 0x40);
  CHECK(refused("10: 40 00\n11: 01\n") == "dump:2: byte 11h is 01h here, but line 1 says 00h");
  CHECK(read("10: ??\n10: 40\n10: ??\n").at(0x10) == 0x40);
}

TEST_CASE("a line without address among others that have one is refused") {
  CHECK_THAT(refused("10: 40 00\n20 30\n"), StartsWith("dump:2: ") && Contains("is no address"));
}

TEST_CASE("a star needs bytes before it and an address behind it") {
  const Image image = read("00: 11 22\n*\n08: 33\n");
  CHECK(image.at(0x06) == 0x11);
  CHECK(image.at(0x07) == 0x22);
  CHECK(image.at(0x08) == 0x33);
  CHECK_THAT(refused("00: 11\n*\n"), StartsWith("dump:2: a * with no address behind it"));
  CHECK_THAT(refused("00000000 11\n*\n*\nFFFFFFFF\n"), StartsWith("dump:3: what the * stands for"));
  CHECK_THAT(refused("00: 11\n*\n90:\n"), Contains("it holds 144 bytes"));
  CHECK_THAT(refused("11 22\n*\n33\n"), StartsWith("dump:2: a * stands for left out rows"));
  CHECK_THAT(refused("40:\n*\n50:\n"), StartsWith("dump:2: a * with no bytes before it"));
}

TEST_CASE("a buffer at an odd segment and offset is moved to the start of the chip") {
  const Image part = read("1234:0190  40 00\n1234:01A0  11\n");
  CHECK(part.at(0x10) == 0x40);
  CHECK(part.at(0x20) == 0x11);
  CHECK_THAT(refused("1234:0100  40\n1234:0180  11\n"), StartsWith("dump:2: address 180h is past"));
  CHECK_THAT(refused("1234:0100  40\n1235:0110  11\n"), StartsWith("dump:2: the segment"));
}

TEST_CASE("the ASCII column may look like hex and does not count") {
  const Image image = read(
      "00000000: 3031 3233 3435 3637 3839 4142 4344 4546  0123456789ABCDEF\n"
      "00000010: 3432                                     42\n"
      "00000020: 2020 3432 2020 2020 2020 2020 2020 2020    42\n");
  CHECK(image.at(0x0F) == 0x46);
  CHECK(image.at(0x11) == 0x32);
  CHECK_FALSE(image.known(0x12));
  CHECK(image.at(0x22) == 0x34);
  CHECK(image.at(0x2F) == 0x20);
}

TEST_CASE("an ASCII column that was not changed with the bytes does not disturb") {
  const Image image = read("00000000: 4142 4344 4546 4748  ABxDExGH\n");
  CHECK(image.at(0x07) == 0x48);
  CHECK_FALSE(image.known(0x08));
}

TEST_CASE("bytes behind a wider gap are bytes, not an ASCII column") {
  const Image image = read("00000000  34 30 00 00 00 00 00 00  40\n00000010  ?? ??  40\n");
  CHECK(image.at(0x08) == 0x40);
  CHECK(image.at(0x12) == 0x40);
}

TEST_CASE("an ASCII column in a code page or in UTF-8 is passed over") {
  CHECK(read("0010: 41 80 B0 42  A\xC7\xB0"
             "B\n")
            .at(0x13) == 0x42);
  CHECK(read("0010: 41 80 B0 42  A\xC3\x87\xE2\x96\x91"
             "B\n")
            .at(0x13) == 0x42);
}

TEST_CASE("comments, a byte order mark, CRLF and the end mark of DOS do not disturb hex") {
  const Image image =
      read("\xEF\xBB\xBF# mine\r\n; too\r\n10: 40 00 # note\r\n12: F0 ; note\r\n\x1A");
  CHECK(image.at(0x11) == 0x00);
  CHECK(image.at(0x12) == 0xF0);
  CHECK_FALSE(image.known(0x13));
}

TEST_CASE("what is no text is refused by the forms of text, with its line") {
  for (const Form form : {Form::hex, Form::rows, Form::intel_hex, Form::s_record, Form::c_array}) {
    CHECK_THAT(refusal(std::string("12 34\n\0\1", 8), form),
               StartsWith("dump:2: a byte 00h stands in the text, at column 1"));
    CHECK_THAT(refusal("\xFF\xFE"
                       "1\0002",
                       form),
               Contains("UTF-16"));
    CHECK_THAT(refusal(std::string(5000, '1'), form), Contains("5000 characters"));
    CHECK_THAT(refusal(std::string(20000, '\n'), form), Contains("more than 16384 lines"));
  }
}

TEST_CASE("an address may have as many digits as a big processor's") {
  CHECK(read("0000000000000010: 40\n").at(0x10) == 0x40);
  CHECK(read("00000010: 40\n").at(0x10) == 0x40);
  CHECK_THAT(refused("1000000000010: 40\n"), StartsWith("dump:1: \"1000000000010\" is no address"));
}

TEST_CASE("what a star stands for ends behind the rows before it, and not far away") {
  CHECK_THAT(refused("20: 40\n*\n10: 00\n"),
             StartsWith("dump:2: what the * stands for is past the chip"));
  CHECK_THAT(refused("00: 40\n*\n10001:\n"),
             StartsWith("dump:2: what the * stands for is past the chip"));
  CHECK(read("00: 40\n*\n10000:\n").at(0x3F) == 0x40);
}

TEST_CASE("more than 65536 bytes are more than any dump repeats", "[long][count]") {
  CHECK(read(repeated(1024, "00: " + repeated(64, "40 ") + "\n")).at(0x3F) == 0x40);
  CHECK_THAT(refused(repeated(1025, "00: " + repeated(64, "40 ") + "\n")),
             StartsWith("dump:1025: more bytes than any clock chip holds"));
}

TEST_CASE("comments, headings and words of other kinds are passed over, and said to be") {
  for (const char* head : {"# 41", "; 41", "// 41", "Offset 00 01", "Address  0  1"}) {
    CAPTURE(head);
    CHECK(read(std::string(head) + "\n10: 40\n").at(0x10) == 0x40);
  }
  const Dump dump = read_dump("Look here:\n10: 40\nOffset 00 01\n", "dump");
  CHECK(dump.image.at(0x10) == 0x40);
  REQUIRE(!dump.remarks.notes.empty());
  CHECK(dump.remarks.notes.front() == "lines 1, 3 passed over: no bytes there");
}
