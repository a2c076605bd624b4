#include "terminal/shell_word.h"

#include <catch2/catch.hpp>

using namespace rtcmend;

TEST_CASE("a name that no shell misreads stands as it is") {
  for (const char* name : {"new.bin", "dumps/2031-05-14_a.bin", "a=b", "-", "C:x,y@z%+"})
    CHECK(shell_word(name) == name);
}

TEST_CASE("a name that a shell would take apart or run stands in quotes") {
  CHECK(shell_word("my dump.bin") == "'my dump.bin'");
  CHECK(shell_word("$(touch X)") == "'$(touch X)'");
  CHECK(shell_word("a;b") == "'a;b'");
  CHECK(shell_word("~/x") == "'~/x'");
  CHECK(shell_word("it's") == "'it'\\''s'");
  CHECK(shell_word("") == "''");
  CHECK(shell_word("caf\xC3\xA9") == "'caf\xC3\xA9'");
}

TEST_CASE("a name that begins like an option does not pass for one") {
  CHECK(shell_word("-o") == "./-o");
  CHECK(shell_word("-o x") == "'./-o x'");
}

TEST_CASE("what cannot be seen stands in codes, and the word is still the name") {
  CHECK(shell_word("a\x1B[2Jb") == "$'a\\x1B[2Jb'");
  CHECK(shell_word("a\nb'c\\") == "$'a\\x0Ab\\'c\\\\'");
  CHECK(shell_word("a\xC2\xA0"
                   "b") == "$'a\\xC2\\xA0b'");
  CHECK(shell_word("\xFF") == "$'\\xFF'");
}

TEST_CASE("a command is not folded inside a name, nor do its blanks become fewer") {
  const std::string name = "'one  two three four five six seven eight nine ten eleven twelve x'";
  const std::string text = hanging_with("copy \"rtcmend compare {} READBACK\" and so on", name, 6);
  CHECK(text.find(name) != std::string::npos);
}
