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
  CHECK(nearest("", names).empty());
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
  CHECK(fold("one  two ", 10, 0) == "one two");
}

TEST_CASE("only whole, shortest UTF-8 within Unicode is a character") {
  // The Unicode Standard, table 3-7: well-formed byte sequences.
  for (const char* good : {"\xC2\xA1", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
                           "\xEF\xBF\xBD", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"})
    CHECK(printable(good) == good);
  CHECK(printable("\xC1\xBF") == "\\xC1\\xBF");
  CHECK(printable("\xE0\x9F\xBF") == "\\xE0\\x9F\\xBF");
  CHECK(printable("\xED\xBF\xBF") == "\\xED\\xBF\\xBF");
  CHECK(printable("\xF0\x8F\xBF\xBF") == "\\xF0\\x8F\\xBF\\xBF");
  CHECK(printable("\xF4\x90\x80\x80") == "\\xF4\\x90\\x80\\x80");
  CHECK(printable("\xF5\x80\x80\x80") == "\\xF5\\x80\\x80\\x80");
  CHECK(printable("\x80") == "\\x80");
  CHECK(printable("a\xE2\x82") == "a\\xE2\\x82");
  CHECK(printable("\xF0\x9F\x92z") == "\\xF0\\x9F\\x92z");
}

TEST_CASE("characters that hide or turn text round are spelled out, their neighbours are not") {
  CHECK(printable("\x7F") == "\\x7F");
  CHECK(printable("\xC2\x80\xC2\x9F\xC2\xA0") == "\\u{0080}\\u{009F}\xC2\xA0");
  CHECK(printable("\xD8\x9B\xD8\x9C\xD8\x9D") == "\xD8\x9B\\u{061C}\xD8\x9D");
  CHECK(printable("\xE2\x80\x8A\xE2\x80\x8B\xE2\x80\x8F\xE2\x80\x90") ==
        "\xE2\x80\x8A\\u{200B}\\u{200F}\xE2\x80\x90");
  CHECK(printable("\xE2\x80\xA7\xE2\x80\xA8\xE2\x80\xAF") == "\xE2\x80\xA7\\u{2028}\xE2\x80\xAF");
  CHECK(printable("\xE2\x81\x9F\xE2\x81\xA0\xE2\x81\xA9\xE2\x81\xAA") ==
        "\xE2\x81\x9F\\u{2060}\\u{2069}\xE2\x81\xAA");
  CHECK(printable("\xEF\xBB\xBF") == "\\u{FEFF}");
}
