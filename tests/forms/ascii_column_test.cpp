#include "forms/ascii_column.h"

#include <catch2/catch.hpp>

using namespace rtcmend;

TEST_CASE("what can be printed stands for itself, the rest is a dot or a blank") {
  CHECK(ascii_fit({0x20, 0x21, 0x7E}, " !~") == AsciiFit::exact);
  CHECK(ascii_fit({0x00, 0x1F, 0x7F, 0xFF}, ".. .") == AsciiFit::exact);
  CHECK(ascii_fit({0x20}, ".") == AsciiFit::none);
  CHECK(ascii_fit({0x21}, ".") == AsciiFit::none);
  CHECK(ascii_fit({0x7E}, ".") == AsciiFit::none);
  CHECK(ascii_fit({0x41}, "B") == AsciiFit::none);
}

TEST_CASE("some programs show the lower seven bits") {
  CHECK(ascii_fit({0xC1}, "A") == AsciiFit::exact);
  CHECK(ascii_fit({0xC1}, "B") == AsciiFit::none);
}

TEST_CASE("an unknown byte is a dot, a question mark or a blank") {
  CHECK(ascii_fit({std::nullopt}, ".") == AsciiFit::exact);
  CHECK(ascii_fit({std::nullopt}, "?") == AsciiFit::exact);
  CHECK(ascii_fit({std::nullopt}, " ") == AsciiFit::exact);
  CHECK(ascii_fit({std::nullopt}, "/") == AsciiFit::none);
  CHECK(ascii_fit({std::nullopt}, "@") == AsciiFit::none);
}

TEST_CASE("letters of a code page are one character each") {
  CHECK(ascii_fit({0x90}, "\x80") == AsciiFit::exact);
  CHECK(ascii_fit({0x80, 0x81}, "\xC1\x80") == AsciiFit::exact);
  CHECK(ascii_fit({0x82, 0x41},
                  "\xE9"
                  "A") == AsciiFit::exact);
  CHECK(ascii_fit({0x81, 0x82, 0x41},
                  "\xE2\x82"
                  "A") == AsciiFit::exact);
  CHECK(ascii_fit({0x41, 0x82}, "A\xE9") == AsciiFit::exact);
}

// The first and the last characters of each length (RFC 3629).
TEST_CASE("a character of UTF-8 is one character, however long") {
  for (const char* character : {"\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xEF\xBF\xBF",
                                "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"}) {
    CAPTURE(std::string(character));
    CHECK(ascii_fit({0x90, 0x41}, std::string(character) + "A") == AsciiFit::exact);
    CHECK(ascii_fit({0x90}, character) == AsciiFit::exact);
  }
}

TEST_CASE("blanks at the end of a column may be missing, other characters may not") {
  CHECK(ascii_fit({0x41, 0x20, 0x20}, "A") == AsciiFit::exact);
  CHECK(ascii_fit({0x41, 0x21}, "A") == AsciiFit::similar);
  CHECK(ascii_fit({0x41}, "AB") == AsciiFit::none);
}

TEST_CASE("a column of which half fits belongs to bytes that were changed since") {
  CHECK(ascii_fit({0x41, 0x42, 0x43, 0x44}, "ABxx") == AsciiFit::similar);
  CHECK(ascii_fit({0x41, 0x42, 0x43}, "Axx") == AsciiFit::none);
  CHECK(ascii_fit({0x41, 0x42, 0x43, 0x44}, "Axxx") == AsciiFit::none);
}

TEST_CASE("there is no column without bytes") {
  CHECK(ascii_fit({}, "") == AsciiFit::none);
}
