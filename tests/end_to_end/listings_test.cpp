#include <catch2/catch.hpp>
#include <filesystem>

#include "workbench.h"

// The collection of tests/forms/listings/ through the program itself, whose own judgement of a chip
// weighs what the text leaves open. The bytes are those of tests/forms/collection.cpp.

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

constexpr const char* small_chip =
    "00: 21 00 58 00 05 00 05 15 02 94 26 02 50 80 00 00\n"
    "10: 40 00 F0 00 41 80 02 80 01 27 00 00 00 00 00 00\n"
    "20: 00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 9B\n"
    "30: 80 01 19 00 A5 3C 7E 11 9F 00 C2 08 64 E7 B0 4D\n";
constexpr const char* large_chip =
    "00: 47 00 13 00 22 00 03 28 10 31 26 02 50 80 00 00\n"
    "10: 44 00 33 2F 0D 80 02 00 3C 2F 31 00 00 5A 17 C3\n"
    "20: 08 6E 00 91 D4 03 00 FF 12 00 00 7B 00 20 06 8F\n"
    "30: 00 3C 20 80 11 E5 6A 09 F3 00 48 61 7A 65 6C 2E\n"
    "40: C0 FF EE 00 12 34 56 78 FE DC BA 98 76 54 32 10\n"
    "50: 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00\n"
    "60: 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00\n"
    "70: 53 68 65 6C 66 20 34 2C 20 6C 65 66 74 0A E1 9C\n";

}  // namespace

TEST_CASE("the program reads every listing of the collection of a whole chip", "[long][count]") {
  const Workbench bench;
  std::size_t read = 0;
  for (const auto& entry :
       std::filesystem::directory_iterator(RTCMEND_SOURCE_DIR "/tests/forms/listings")) {
    const std::string name = entry.path().filename().string();
    const bool small = name.starts_with("a64-");
    if (entry.path().extension() != ".txt" || (!small && !name.starts_with("b128-"))) continue;
    CAPTURE(name);
    const Ran ran = bench.run({"convert", entry.path().string(), "--to", "hex", "-o", "-"});
    CHECK(ran.code == 0);
    CHECK(ran.out == (small ? small_chip : large_chip));
    ++read;
  }
  CHECK(read >= 200);
}

TEST_CASE("readings side by side are shown below the message, each with its option") {
  const Workbench bench;
  // 32 words without addresses and without anything of a chip: the order stays open.
  std::string text;
  for (int i = 0; i < 32; ++i) text += i % 8 == 7 ? "a1b2\n" : "a1b2 ";
  bench.put("words.txt", text);
  const Ran ran = bench.run({"show", "words.txt"});
  CHECK(ran.code == 2);
  CHECK(ran.err ==
        "rtcmend: words.txt: it can be read in 2 ways, and nothing says clearly which is meant\n"
        "  order low: hex words of 2 bytes, low byte first\n"
        "    00: B2 A1 B2 A1 B2 A1 B2 A1 B2 A1 B2 A1 ...\n"
        "  order high: hex bytes in groups, in the order they are written\n"
        "    00: A1 B2 A1 B2 A1 B2 A1 B2 A1 B2 A1 B2 ...\n"
        "try: name one of these readings (--order low); --order high\n");
}

TEST_CASE("a lost digit is shown with a mark below its place") {
  const Workbench bench;
  bench.put("torn.txt", "00: 21 00 58\n03: 00 5 00\n06: 05 15 02\n");
  const Ran ran = bench.run({"show", "torn.txt"});
  CHECK(ran.code == 2);
  CHECK(
      ran.err.starts_with("rtcmend: torn.txt:2: \"5\" has an odd number of hex digits\n"
                          "  03: 00 5 00\n"
                          "         ^\n"
                          "try: "));
}
