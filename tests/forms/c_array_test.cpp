#include <catch2/catch.hpp>

#include "forms/samples.h"

using namespace rtcmend;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

Image read(const std::string& text) {
  return read_dump(text, "dump", Form::c_array).image;
}

std::string refused(const std::string& text) {
  return refusal(text, Form::c_array);
}

/// "0, 0, ..." so many times.
std::string zeros(std::size_t count) {
  std::string text;
  for (std::size_t i = 0; i < count; ++i) text += "0, ";
  return text;
}

}  // namespace

TEST_CASE("what xxd -i writes is read") {
  CHECK(read("unsigned char s64_bin[] = {\n"
             "  0x21, 0x00, 0x58, 0x00, 0x05, 0x00, 0x05, 0x15, 0x02, 0x94, 0x26, 0x02,\n"
             "  0x50, 0x80, 0x00, 0x00, 0x40, 0x00, 0xf0, 0x00, 0x41, 0x80, 0x02, 0x80,\n"
             "  0x01, 0x27, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00,\n"
             "  0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x02, 0x9b,\n"
             "  0x80, 0x01, 0x19, 0x00, 0x41, 0x42, 0x20, 0x43, 0x20, 0x7c, 0x3e, 0x23,\n"
             "  0x3d, 0x2e, 0x2d, 0x7f\n"
             "};\n"
             "unsigned int s64_bin_len = 64;\n") == sample_64());
}

TEST_CASE("an array is written eight values a line") {
  CHECK(write_dump(sample_64(), Form::c_array) ==
        "const unsigned char image[64] = {\n"
        "    0x21, 0x00, 0x58, 0x00, 0x05, 0x00, 0x05, 0x15,\n"
        "    0x02, 0x94, 0x26, 0x02, 0x50, 0x80, 0x00, 0x00,\n"
        "    0x40, 0x00, 0xF0, 0x00, 0x41, 0x80, 0x02, 0x80,\n"
        "    0x01, 0x27, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00,\n"
        "    0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00,\n"
        "    0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x02, 0x9B,\n"
        "    0x80, 0x01, 0x19, 0x00, 0x41, 0x42, 0x20, 0x43,\n"
        "    0x20, 0x7C, 0x3E, 0x23, 0x3D, 0x2E, 0x2D, 0x7F,\n"
        "};\n");
}

TEST_CASE("decimal values, suffixes and comments are read") {
  const Image image =
      read("byte x[] = { 33, 0x58u, /* { 1, 2, */ 255UL, // 9, }\n 0, " + zeros(60) + "}; // {");
  CHECK(image.size() == 64);
  CHECK(image.at(0) == 33);
  CHECK(image.at(1) == 0x58);
  CHECK(image.at(2) == 255);
  CHECK(image.at(3) == 0);
}

TEST_CASE("comments end where they end, and may be empty") {
  CHECK(read("{ /*a*/7, /**/ 8, //\n 9, " + zeros(61) + "}").at(0) == 7);
  CHECK(read("{ /*a*/7, /**/ 8, //\n 9, " + zeros(61) + "} //").at(2) == 9);
  CHECK_THAT(refused("{ 4/2, " + zeros(63) + "}"), Contains("\"4/2\" is not a number"));
}

TEST_CASE("every suffix of an integer is passed over") {
  const Image image = read("{ 7l, 8L, 9u, 10U, 0x0Bul, 12LL, " + zeros(58) + "}");
  for (Address at = 0; at < 6; ++at) CHECK(image.at(at) == at + 7);
}

TEST_CASE("an array of 50 or 114 values is the RAM part") {
  const Image small = read("{ " + zeros(50) + "}");
  CHECK(small.size() == 64);
  CHECK_FALSE(small.known(0x0D));
  CHECK(small.known(0x0E));
  CHECK(read("{ " + zeros(114) + "}").size() == 128);
}

TEST_CASE("arrays of other sizes are refused") {
  CHECK_THAT(refused("{ " + zeros(60) + "}"), Contains("it holds 60 bytes"));
  CHECK_THAT(refused("{ }"), Contains("it holds 0 bytes"));
  CHECK_THAT(refused("{}"), Contains("it holds 0 bytes"));
  CHECK_THAT(refused("{ 1 }"), Contains("it holds 1 byte,"));
  CHECK_THAT(refused("{\n" + zeros(128) + "\n0 }"), StartsWith("dump:3: more than 128 values"));
}

TEST_CASE("a declared length must be that of the values, for C would fill up with zeros") {
  CHECK(read("char x[64] = {" + zeros(64) + "}").size() == 64);
  CHECK_THAT(refused("\nchar x[128] = {" + zeros(64) + "}"),
             StartsWith("dump:2: the array is declared with 128 values, but 64"));
}

TEST_CASE("brackets that declare no length are passed over") {
  for (const char* head : {"128] x = ", "x[128 = ", "128] x[ = ", "x[] = ", "x[SIZE] = "}) {
    CAPTURE(head);
    CHECK(read(head + ("{" + zeros(64)) + "}").size() == 64);
  }
}

TEST_CASE("what is no byte is refused with its line") {
  CHECK_THAT(refused("{ 0x21,\n 0x100, 0 }"), StartsWith("dump:2: \"0x100\" does not fit a byte"));
  CHECK_THAT(refused("{ 0x21,\n 256 }"), StartsWith("dump:2: \"256\" does not fit a byte"));
  CHECK_THAT(refused("{ 0x21,\n -1 }"), StartsWith("dump:2: \"-1\" does not fit a byte"));
  CHECK_THAT(refused("{ 0x21,\n 07 }"), StartsWith("dump:2: \"07\" is an octal number"));
  CHECK_THAT(refused("{ 0x21,\n 010 }"), StartsWith("dump:2: \"010\" is an octal number"));
  CHECK_THAT(refused("{ 0x21,\n AB }"), StartsWith("dump:2: \"AB\" is not a number"));
  CHECK_THAT(refused("{ 0x21,\n 0x }"), StartsWith("dump:2: \"0x\" is not a number"));
  CHECK_THAT(refused("{ 0x21,, 0 }"), StartsWith("dump:1: a value is missing"));
  CHECK_THAT(refused("{ 99999999999999999999 }"), Contains("is not a number"));
}

TEST_CASE("what is no single array is refused") {
  CHECK_THAT(refused("int x = 3;"), Contains("no opening brace"));
  CHECK_THAT(refused("\n{ 0x21,"), StartsWith("dump:2: the brace is not closed"));
  CHECK_THAT(refused("{ {0x21} }"), Contains("a brace within the braces"));
  CHECK_THAT(refused("{ 0x21 };\n{ 0x21 };"), StartsWith("dump:2: a second array"));
  CHECK_THAT(refused("{ 0x21\n /* }"), StartsWith("dump:2: a comment is not closed"));
}
