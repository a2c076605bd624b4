#include "forms/number.h"

#include <catch2/catch.hpp>

#include "forms/notation.h"

using namespace rtcmend;
using Bytes = std::vector<DumpByte>;

namespace {

std::string digits(std::string_view word) {
  const auto number = number_in(word);
  return number ? std::string(number->digits) : "none";
}

std::optional<Bytes> bytes(std::string_view word, const Notation& notation) {
  const auto number = number_in(word);
  return number ? bytes_of(*number, notation) : std::nullopt;
}

constexpr Notation hex_bytes{16, 1, ByteOrder::high_first, true, true, false};
constexpr Notation low_words{16, 2, ByteOrder::low_first, true, false, false};
constexpr Notation decimal{10, 1, ByteOrder::high_first, false, false, false};
constexpr Notation octal{8, 1, ByteOrder::high_first, true, false, false};
constexpr Notation binary{2, 1, ByteOrder::high_first, true, false, false};

}  // namespace

TEST_CASE("marks of many languages say that a number is hex") {
  for (const char* word : {"0x40", "0X40", "$40", "&H40", "&h40", "40h", "40H", "\\x40"}) {
    CAPTURE(word);
    CHECK(digits(word) == "40");
    CHECK(number_in(word)->mark == Mark::hex);
  }
  CHECK(digits("0FFh") == "FF");
  CHECK(number_in("0FFh")->zero_added);
  CHECK(digits("0x40u8") == "40");
  CHECK(number_in("40")->mark == Mark::none);
}

TEST_CASE("what is no number is none") {
  for (const char* word : {"", "0x", "$", "h", "0x4G", "4G", "hello", "4_", "-", "-x"}) {
    CAPTURE(word);
    CHECK_FALSE(number_in(word));
  }
}

TEST_CASE("a binary mark needs all digits, for 0B00 is a word in hex") {
  CHECK(number_in("0b00100001")->mark == Mark::binary);
  CHECK(number_in("0B00")->mark == Mark::none);
}

TEST_CASE("pairs of digits are bytes as they are written, ?? is an unknown one") {
  CHECK(bytes("40", hex_bytes) == Bytes{0x40});
  CHECK(bytes("40??41", hex_bytes) == Bytes{0x40, std::nullopt, 0x41});
  CHECK(bytes("--", hex_bytes) == Bytes{std::nullopt});
  CHECK(bytes("400", hex_bytes) == std::nullopt);
}

TEST_CASE("words may stand with the low byte first, and shorter at the end of a row") {
  CHECK(bytes("0021", low_words) == Bytes{0x21, 0x00});
  CHECK(bytes("7f", low_words) == Bytes{0x7F});
  CHECK(bytes("021", low_words) == std::nullopt);
}

TEST_CASE("decimal, octal and binary numbers keep to their digits") {
  CHECK(bytes("255", decimal) == Bytes{0xFF});
  CHECK(bytes("-128", decimal) == Bytes{0x80});
  CHECK(bytes("-1", decimal) == Bytes{0xFF});
  CHECK(bytes("256", decimal) == std::nullopt);
  CHECK(bytes("-129", decimal) == std::nullopt);
  CHECK(bytes("05", decimal) == std::nullopt);
  CHECK(bytes("377", octal) == Bytes{0xFF});
  CHECK(bytes("400", octal) == std::nullopt);
  CHECK(bytes("37", octal) == std::nullopt);
  CHECK(bytes("00100001", binary) == Bytes{0x21});
  CHECK(bytes("0010000", binary) == std::nullopt);
}
