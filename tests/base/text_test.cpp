#include "base/text.h"

#include <catch2/catch.hpp>

using namespace rtcmend;

TEST_CASE("hex digits are read without marks and within their limit") {
  CHECK(parse_hex("2e", 0x7F) == 0x2E);
  CHECK(parse_hex("7F", 0x7F) == 0x7F);
  CHECK_FALSE(parse_hex("80", 0x7F));
  CHECK_FALSE(parse_hex("", 0xFF));
  CHECK_FALSE(parse_hex("0x2E", 0xFF));
  CHECK_FALSE(parse_hex("2E ", 0xFF));
  CHECK_FALSE(parse_hex("-1", 0xFF));
  CHECK_FALSE(parse_hex("FFFFFFFFF", 0xFFFFFFFF));
}

TEST_CASE("whole numbers are read to the last character or not at all") {
  CHECK(parse_integer("640") == 640);
  CHECK(parse_integer("-3") == -3);
  CHECK_FALSE(parse_integer("640K"));
  CHECK_FALSE(parse_integer("99999999999999999999"));
}

TEST_CASE("every kind of line end ends a line") {
  const auto all = lines("a\nb\r\nc\rd");
  REQUIRE(all.size() == 4);
  CHECK(all[1] == "b");
  CHECK(all[3] == "d");
  CHECK(lines("").empty());
  CHECK(lines("a\n").size() == 1);
  CHECK(lines("a\n\n").size() == 2);
}

TEST_CASE("the edit distance counts a swap of neighbours as one slip") {
  CHECK(edit_distance("floppy", "floppy") == 0);
  CHECK(edit_distance("flopyp", "floppy") == 1);
  CHECK(edit_distance("flopy", "floppy") == 1);
  CHECK(edit_distance("", "abc") == 3);
}

TEST_CASE("a mistyped name finds its neighbours, a wild one none") {
  const std::vector<std::string> names = {"floppy_a", "floppy_b", "disk_0_type", "base_memory_kib"};
  CHECK(nearest("flopy_a", names) == std::vector<std::string>{"floppy_a", "floppy_b"});
  CHECK(nearest("disk", names) == std::vector<std::string>{"disk_0_type"});
  CHECK(nearest("zzzzzz", names).empty());
}

TEST_CASE("text from outside cannot steer the terminal") {
  CHECK(printable("plain") == "plain");
  CHECK(printable("\x1b[31mred") == "\\x1B[31mred");
  CHECK(printable("a\nb") == "a\\x0Ab");
  CHECK(printable("caf\xC3\xA9") == "caf\xC3\xA9");
  CHECK(printable("\xC3(") == "\\xC3(");
  CHECK(printable("\xE2\x80\xAE"
                  "abc") == "\\u{202E}abc");
  CHECK(printable("\xC2\x9B") == "\\u{009B}");
  CHECK(printable("\xED\xA0\x80") == "\\xED\\xA0\\x80");
  CHECK(printable("\xC0\x80") == "\\xC0\\x80");
}

TEST_CASE("JSON is made safe by its own escapes, and stays the same JSON") {
  CHECK(printable_json("{\n  \"n\": \"caf\xC3\xA9\"\n}") == "{\n  \"n\": \"caf\xC3\xA9\"\n}");
  CHECK(printable_json("\"\xE2\x80\xAE\xC2\x9B\x7F\"") == "\"\\u202e\\u009b\\u007f\"");
  CHECK(printable_json("") == "");
}

TEST_CASE("folding keeps words whole and indents what follows") {
  CHECK(fold("one two three", 7, 2) == "one two\n  three");
  CHECK(fold("one", 2, 0) == "one");
  CHECK(fold("", 10, 0).empty());
}
