#include "forms/hex_line.h"

#include <catch2/catch.hpp>

#include "base/error.h"

using namespace rtcmend;
using Bytes = std::vector<DumpByte>;

namespace {

HexLine parsed(std::string_view text) {
  return parse_hex_line({7, text}, address_style(text), "dump");
}

std::string address(std::string_view text) {
  const HexLine line = parsed(text);
  return line.address ? std::string(line.address->digits) : "none";
}

Bytes bytes(std::string_view text) {
  return bytes_of(parsed(text));
}

std::string refused(std::string_view text, AddressStyle style) {
  try {
    parse_hex_line({7, text}, style, "dump");
  } catch (const Error& error) {
    return error.what();
  }
  return {};
}

}  // namespace

TEST_CASE("a colon or equals sign marks an address, with or without a mark for hex") {
  for (const char* text :
       {"10: 40", "10 : 40", "10= 40", "10h: 40", "10H: 40", "10H = 40", "0x10: 40", "0X10: 40"}) {
    CAPTURE(text);
    CHECK(address_style(text) == AddressStyle::marked);
    CHECK(address(text) == "10");
    CHECK(bytes(text) == Bytes{0x40});
  }
  CHECK(address_style("x10: 40") == AddressStyle::none);
  CHECK(address_style("0x: 40") == AddressStyle::none);
  CHECK(address("0: 40") == "0");
  CHECK(address("0x0: 40") == "0");
}

TEST_CASE("four digits, a colon and four more are a segment and an offset") {
  const HexLine line = parsed("1234:0100  40 41");
  CHECK(line.address->segment == "1234");
  CHECK(line.address->digits == "0100");
  CHECK(bytes_of(line) == Bytes{0x40, 0x41});
  CHECK(parsed("1234:0100").address->segment == "1234");
  CHECK(parsed("1234:0100").groups.empty());
  CHECK(address_style("123G:0100  40") == AddressStyle::none);
  // An address of the chip with four digits, and a group behind the colon.
  CHECK(parsed("0010:4041-42").address->segment.empty());
  CHECK(bytes("0010:4041-42") == Bytes{0x40, 0x41, 0x42});
}

TEST_CASE("an address without a mark is told by its number of digits") {
  CHECK(address("0010 40 41") == "0010");
  CHECK(address_style("010 40 41") == AddressStyle::none);
  CHECK(address("000010 4041 4243") == "000010");
  CHECK(address_style("00010 4041 4243") == AddressStyle::none);
  CHECK(address_style("000010 404142 434445") == AddressStyle::none);
  CHECK(address_style("0000020") == AddressStyle::none);
}

TEST_CASE("a debugger leaves three blanks for each byte in front of the first one") {
  CHECK(parsed("1234:0100  40").skipped == 0);
  CHECK(parsed("1234:0100    40").skipped == 0);
  CHECK(parsed("1234:0100     40").skipped == 1);
  CHECK(parsed("1234:0100        40").skipped == 2);
  CHECK(refused("1234:0100      40", AddressStyle::marked).find("dump:7: the blanks in front") ==
        0);
  CHECK(parsed("10:     40").skipped == 0);
}

TEST_CASE(
    "what stands behind a bar, an angle, a number sign, a semicolon or two slashes is no byte") {
  for (const char* behind : {"|41 42", ">41 42", "# 41 42", "; 41 42", "// 41 42", "#", "//"}) {
    CAPTURE(behind);
    CHECK(bytes("10: 40 " + std::string(behind)) == Bytes{0x40});
  }
  CHECK(refused("10: 40 / 41", AddressStyle::marked).find("dump:7: \"/\" is not hex") == 0);
  CHECK(refused("10: # 41", AddressStyle::marked).find("dump:7: \"#\" is not hex") == 0);
}

TEST_CASE("a lone dash between bytes is passed over") {
  CHECK(bytes("10: 40 - 41") == Bytes{0x40, 0x41});
}

TEST_CASE("a line without address among others that have one is no line") {
  CHECK(refused("hello", AddressStyle::marked) ==
        "dump:7: \"hello\" is no address, and the lines before begin with one");
  CHECK(refused("hello", AddressStyle::bare) ==
        "dump:7: \"hello\" is no address, and the lines before begin with one");
  CHECK(parse_hex_line({7, "  *"}, AddressStyle::marked, "dump").repeat);
}
