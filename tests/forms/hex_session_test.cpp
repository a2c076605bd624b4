#include "forms/hex_session.h"

#include <catch2/catch.hpp>

#include "forms/samples.h"

using namespace rtcmend;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

// A DOS debugger's commands as entry to the chip: o 70 selects, i 71 reads (ports: RBIL61; the look
// of the session: from memory).

namespace {

Image read(const std::string& text) {
  return read_dump(text, "dump").image;
}

std::string refused(const std::string& text) {
  return refusal(text, Form::hex);
}

}  // namespace

TEST_CASE("a session that reads port 71 byte by byte gives those bytes") {
  const Image image = read(
      "C:\\>debug\r\n-o 70 10\r\n-i 71\r\n40\r\n-o 70 12\r\n-i 71\r\nF0\r\n-o 70,19\r\n-I "
      "71\r\n27\r\n"
      "-q\r\n");
  CHECK(image.size() == 64);
  CHECK(image.at(0x10) == 0x40);
  CHECK(image.at(0x12) == 0xF0);
  CHECK(image.at(0x19) == 0x27);
  CHECK(image.unknown().size() == 61);
}

TEST_CASE("a session without prompts is read too") {
  CHECK(read("o 70 7f\ni 71\n5a\nq\n").at(0x7F) == 0x5A);
}

// Bit 7 of port 70h masks the NMI and is no part of the address (RBIL61).
TEST_CASE("bit 7 of the selected address is not part of it") {
  CHECK(read("-o 70 90\n-i 71\n40\n").at(0x10) == 0x40);
}

TEST_CASE("other ports in a session do not count") {
  const Image image = read("-i 61\n30\n-o 61 3\n-o 70 10\n-i 71\n40\n");
  CHECK(image.at(0x10) == 0x40);
  CHECK(image.unknown().size() == 63);
}

TEST_CASE("a byte read twice in a session must be the same") {
  CHECK(read("-o 70 10\n-i 71\n40\n-i 71\n40\n").at(0x10) == 0x40);
  CHECK_THAT(refused("-o 70 10\n-i 71\n40\n-i 71\n41\n"), StartsWith("dump:5: byte 10h is 41h"));
}

TEST_CASE("a broken session is refused with its line") {
  CHECK_THAT(refused("-o 70 10\n-i 71\n-o 70 11\n-i 71\n00\n"),
             StartsWith("dump:3: the value that i 71 showed is missing"));
  CHECK_THAT(refused("-o 70 10\n-i 71\n"), StartsWith("dump:2: the value"));
  CHECK_THAT(refused("-o 70 10\n40\n"), StartsWith("dump:2: \"40\" answers no i 71"));
  CHECK_THAT(refused("-i 71\n40\n-o 70 10\n"), StartsWith("dump:1: port 71 is read, but no o 70"));
  CHECK_THAT(refused("-o 70 10\n-o 71 40\n"), StartsWith("dump:2: the session writes to port 71"));
  CHECK_THAT(refused("-o 70 10\n-i 71\n4G\n"), StartsWith("dump:3: \"4G\" is not hex"));
  CHECK_THAT(refused("-o 70 10\n"), Contains("no bytes"));
}

TEST_CASE("prompts and sentences are told from bytes") {
  for (const char* line : {"-", " - ", "-d 100 17f", "-q", "C:\\>debug", "C:\\>", "C:\\DUMPS>x",
                           "Program terminated normally", "Program terminated."}) {
    CAPTURE(line);
    CHECK(is_prompt_line(line));
  }
  for (const char* line : {"", "--", "-1", "C:", "C:\\", "C:\\DUMPS", "1:\\>", "C:/>", "AB CD",
                           "word", "x/y z", "10: 40"}) {
    CAPTURE(line);
    CHECK_FALSE(is_prompt_line(line));
  }
}

TEST_CASE("a debugger needs no blank behind its letter, and takes longer port numbers") {
  CHECK(read("-o70 10\n-i71\n40\n").at(0x10) == 0x40);
  CHECK(read("-o 0070,10\n-i 0071\n40\n").at(0x10) == 0x40);
}

TEST_CASE("what only resembles a debugger's command is refused") {
  const std::string begin = "-o 70 10\n";
  for (const char* line : {"o 70", "o 70 10 5", "i", "i 71 5", "o 10000 5", "i 7G"}) {
    CAPTURE(line);
    CHECK_THAT(refused(begin + line + "\n"), StartsWith("dump:2: "));
  }
}
