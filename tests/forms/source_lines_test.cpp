#include "forms/source_lines.h"

#include <catch2/catch.hpp>

#include "base/error.h"
#include "forms/plain_text.h"

using namespace rtcmend;

namespace {

std::string refused(const std::string& content) {
  try {
    source_lines(content, "dump");
  } catch (const Error& error) {
    return error.what();
  }
  return {};
}

}  // namespace

TEST_CASE("lines keep their numbers and lose the blanks behind them") {
  const auto lines = source_lines("40 \t\n\n \n41\n", "dump");
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].text == "40");
  CHECK(lines[0].number == 1);
  CHECK(lines[1].number == 4);
  CHECK(source_lines("", "dump").empty());
  CHECK(source_lines("\x1A\x1A", "dump").empty());
  CHECK(source_lines("\xEF\xBB\xBF"
                     "40\x1A",
                     "dump")
            .at(0)
            .text == "40");
}

TEST_CASE("a line has up to 4096 characters, a text up to 16384 lines") {
  CHECK(refused(std::string(4096, '4')).empty());
  CHECK(refused(std::string(4097, '4')).find("dump:1: the line has 4097 characters") == 0);
  std::string text(2 * 16384, '\n');
  for (std::size_t i = 0; i < text.size(); i += 2) text[i] = '4';
  CHECK(refused(text).empty());
  CHECK(refused(text + "4\n").find("dump: it has more than 16384 lines") == 0);
}

TEST_CASE("a control character is named with its line and column") {
  CHECK(refused("40\n4\x07").find("dump:2: a byte 07h stands in the text, at column 2") == 0);
  CHECK(refused("\x7F").find("dump:1: a byte 7Fh stands in the text, at column 1") == 0);
}

TEST_CASE("text from a file is quoted in a message, cut behind 24 characters") {
  CHECK(in_quotes("abc") == "\"abc\"");
  CHECK(in_quotes("123456789012345678901234") == "\"123456789012345678901234\"");
  CHECK(in_quotes("1234567890123456789012345") == "\"123456789012345678901234...\"");
}

TEST_CASE("control characters are no text, blanks and line ends are") {
  for (const char c : {'\t', '\n', '\v', '\f', '\r', ' ', '~', '\x80', '\xFF'})
    CHECK(is_text_character(c));
  for (const char c : {'\0', '\x08', '\x0E', '\x1A', '\x1F', '\x7F'})
    CHECK_FALSE(is_text_character(c));
}

TEST_CASE("the end mark of DOS may stand at the end of a text, and nowhere else") {
  CHECK(is_plain_text("a"));
  CHECK(is_plain_text("a\x1A\x1A"));
  CHECK_FALSE(
      is_plain_text("a\x1A"
                    "b"));
  CHECK_FALSE(
      is_plain_text("\x01"
                    "a"));
  CHECK_FALSE(is_plain_text("ab\x01\x1A"));
  CHECK_FALSE(is_plain_text("\x1A"));
  CHECK_FALSE(is_plain_text(""));
}
