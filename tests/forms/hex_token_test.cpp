#include "forms/hex_token.h"

#include <catch2/catch.hpp>

using namespace rtcmend;
using Bytes = std::vector<DumpByte>;

namespace {

Bytes bytes(std::string_view word) {
  const HexToken token = parse_hex_token(word);
  CHECK(token.problem.empty());
  return token.bytes;
}

std::string problem(std::string_view word) {
  return parse_hex_token(word).problem;
}

}  // namespace

TEST_CASE("a byte is two digits, and one where a mark says that it is hex") {
  CHECK(bytes("40") == Bytes{0x40});
  for (const char* word : {"0x40", "0X40", "$40", "&H40", "&h40", "40h", "40H"}) {
    CAPTURE(word);
    CHECK(bytes(word) == Bytes{0x40});
  }
  for (const char* word : {"0x4", "$4", "&H4", "4h", "4H"}) {
    CAPTURE(word);
    CHECK(bytes(word) == Bytes{0x04});
  }
  CHECK(bytes("0FFh") == Bytes{0xFF});
}

TEST_CASE(
    "more than a byte holds is refused where a mark says hex, and is a group where none does") {
  CHECK(problem("0x100") == "\"0x100\" does not fit a byte");
  CHECK(problem("100h") == "\"100h\" does not fit a byte");
  CHECK(bytes("0100") == Bytes{0x01, 0x00});
  CHECK(problem("100") == "\"100\" has an odd number of hex digits");
}

TEST_CASE("a mark without digits, and digits that are none, are refused") {
  CHECK(problem("0x") == "\"0x\" is not hex");
  CHECK(problem("$") == "\"$\" is not hex");
  CHECK(problem("h") == "\"h\" is not hex");
  CHECK(problem("0x4G") == "\"0x4G\" is not hex");
  CHECK(problem("4G") == "\"4G\" is not hex");
}

TEST_CASE("two question marks or two dashes are an unknown byte, in a group too") {
  CHECK(bytes("??") == Bytes{std::nullopt});
  CHECK(bytes("--") == Bytes{std::nullopt});
  CHECK(bytes("40??41") == Bytes{0x40, std::nullopt, 0x41});
  CHECK(problem("?") == "\"?\" is not hex");
}

TEST_CASE("a single dash joins two bytes, two are a byte") {
  CHECK(bytes("41-42") == Bytes{0x41, 0x42});
  CHECK(bytes("41-42-43") == Bytes{0x41, 0x42, 0x43});
  CHECK(bytes("41--") == Bytes{0x41, std::nullopt});
  CHECK(bytes("41--42") == Bytes{0x41, std::nullopt, 0x42});
  CHECK(bytes("41---") == Bytes{0x41, std::nullopt});
  CHECK(bytes("41---42") == Bytes{0x41, std::nullopt, 0x42});
  CHECK(bytes("41-??") == Bytes{0x41, std::nullopt});
  CHECK(problem("41-") == "\"41-\" is not hex");
  CHECK(problem("41-4") == "\"41-4\" is not hex");
  CHECK(problem("-41") == "\"-41\" is not hex");
}
