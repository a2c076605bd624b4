#include "forms/clean_text.h"

#include <catch2/catch.hpp>

#include "base/error.h"

using namespace rtcmend;
using namespace std::string_literals;

TEST_CASE("UTF-16 with a mark is turned into UTF-8, in either order") {
  CHECK(clean_text("\xFF\xFE"
                   "4\0"
                   "0\0"s,
                   "dump") == "40");
  CHECK(clean_text("\xFE\xFF"
                   "\0"
                   "4\0"
                   "0"s,
                   "dump") == "40");
  CHECK(
      is_utf16("\xFF\xFE"
               "4\0"
               "0\0"s));
  CHECK_FALSE(is_utf16("40 41"));
}

TEST_CASE("UTF-16 without a mark is known when it is long enough") {
  std::string wide;
  for (int i = 0; i < 100; ++i) wide += "4\0"s;
  CHECK(clean_text(wide, "dump") == std::string(100, '4'));
}

TEST_CASE("UTF-16 that is cut in half is refused") {
  CHECK_THROWS_WITH(clean_text("\xFF\xFE"
                               "4"s,
                               "dump"),
                    Catch::Contains("UTF-16"));
}

TEST_CASE("bytes that only begin as UTF-16 does are left alone") {
  CHECK(clean_text("\xFF\xFE\x01\x00\x02\x00"s, "dump") == "\xFF\xFE\x01\x00\x02\x00"s);
}

TEST_CASE("what editors and pages put into a text becomes plain") {
  CHECK(clean_text("\xEF\xBB\xBF"
                   "40\xC2\xA0"
                   "41",
                   "dump") == "40 41");
  CHECK(clean_text("\xE2\x80\x9C"
                   "40\xE2\x80\x9D \xE2\x80\x98"
                   "41\xE2\x80\x99",
                   "dump") == "\"40\" '41'");
  CHECK(clean_text("40\xE2\x80\x93"
                   "41 \xE2\x80\x94",
                   "dump") == "40-41 --");
  CHECK(clean_text("\xE2\x94\x82"
                   "40\xE2\x94\x82",
                   "dump") == "|40|");
  CHECK(clean_text("10 \xE2\x86\x92 40", "dump") == "10 -> 40");
}

TEST_CASE("other letters, in UTF-8 or a code page, stay as they are") {
  CHECK(clean_text("\xC3\xA4\xE9\xFF", "dump") == "\xC3\xA4\xE9\xFF");
}
