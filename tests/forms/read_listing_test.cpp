#include "forms/read_listing.h"

#include <catch2/catch.hpp>
#include <cstdio>

#include "forms/samples.h"

using namespace rtcmend;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

const std::string words_of_two =
    "0021 0058 0005 1505 9402 0226 8050 0000\n"
    "0040 00f0 8041 8002 2701 0000 0000 0000\n"
    "0000 0000 0000 0000 0000 0000 0000 9b02\n"
    "0180 0019 4241 4320 7c20 233e 2e3d 7f2d\n";

/// The rows of the sample behind addresses.
std::string rows(const std::string& second = "10") {
  return "00: 21 00 58 00 05 00 05 15 02 94 26 02 50 80 00 00\n" + second +
         ": 40 00 F0 00 41 80 02 80 01 27 00 00 00 00 00 00\n"
         "20: 00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 9B\n"
         "30: 80 01 19 00 41 42 20 43 20 7C 3E 23 3D 2E 2D 7F\n";
}

Error error_of(const std::string& text, const ReadingOptions& options = {}) {
  try {
    read_dump(text, "dump", options);
  } catch (const Error& error) {
    return error;
  }
  FAIL("it was read");
  throw 0;
}

std::string notes_of(const std::string& text, const ReadingOptions& options = {}) {
  std::string all;
  for (const std::string& note : read_dump(text, "dump", options).remarks.notes) all += note + "\n";
  return all;
}

std::string warnings_of(const std::string& text) {
  std::string all;
  for (const std::string& one : read_dump(text, "dump").remarks.warnings) all += one + "\n";
  return all;
}

}  // namespace

TEST_CASE("where two readings are possible, both are shown with the options that name them") {
  const Error error = error_of(words_of_two);
  CHECK_THAT(error.what(), StartsWith("dump: it can be read in 2 ways"));
  CHECK_THAT(error.excerpt(), Contains("order low: ") && Contains("order high: ") &&
                                  Contains("00: 21 00 58 00 05 00 05 15 02 94 26 02") &&
                                  Contains("00: 00 21 00 58 00 05 15 05 94 02 02 26"));
  CHECK_THAT(error.remedy(), Contains("name one of these readings"));
}

TEST_CASE("an option takes one of the readings") {
  ReadingOptions options;
  options.order = ByteOrder::low_first;
  CHECK(read_dump(words_of_two, "dump", options).image == sample_64());
  options.order = ByteOrder::high_first;
  CHECK(read_dump(words_of_two, "dump", options).image.at(1) == 0x21);
}

TEST_CASE("what the bytes look like as a chip decides where the text alone does not, and is said") {
  ReadingOptions options;
  options.likeness = [](const Image& image) { return image == sample_64() ? 20.0 : 0.0; };
  CHECK(read_dump(words_of_two, "dump", options).image == sample_64());
  CHECK_THAT(notes_of(words_of_two, options),
             Contains("read as hex words of 2 bytes, low byte first") && Contains("checks"));
  options.likeness = [](const Image& image) { return image == sample_64() ? 5.0 : 0.0; };
  CHECK_THAT(error_of(words_of_two, options).what(), Contains("2 ways"));
}

TEST_CASE("the text column says in which order words stand, and the note says so") {
  const std::string text =
      "00000000: 00580021 15050005 02269402 00008050  !.X.......&.P...\n"
      "00000010: 00f00040 80028041 00002701 00000000  @...A....'......\n"
      "00000020: 00000000 00000000 00000000 9b020000  ................\n"
      "00000030: 00190180 43204241 233e7c20 7f2d2e3d  ....AB C |>#=.-.\n";
  CHECK(read_dump(text, "dump").image == sample_64());
  CHECK_THAT(notes_of(text),
             Contains("words of 4 bytes, low byte first") && Contains("the text column says so"));
}

TEST_CASE("addresses that go from 9 to 10 and on by one are decimal") {
  std::string text;
  for (std::size_t at = 0; at < 64; ++at)
    text += std::to_string(at) + ": " + (sample_bytes[at] < 16 ? "0x0" : "0x") +
            std::string(sample_bytes[at] < 16 ? 1 : 2, '0') + "\n";
  const Image image = read_dump(text, "dump").image;
  CHECK(image.size() == 64);
  CHECK(image.all_known());
}

TEST_CASE("a message says what was understood and marks the place") {
  const Error lost = error_of(rows().replace(rows().find(" 41 80"), 3, ""));
  CHECK(std::string(lost.what()) == "dump:2: row 10 has 15 bytes, and the others have 16");
  const Error odd = error_of(rows().replace(rows().find("F0"), 2, "F"));
  CHECK(std::string(odd.what()) == "dump:2: \"F\" has an odd number of hex digits");
  CHECK_THAT(odd.excerpt(), Contains("\n  10: 40 00 F 00") && Contains("\n            ^"));
}

TEST_CASE("a lost digit of an address names its line") {
  CHECK(std::string(error_of(rows("1")).what()) ==
        "dump:2: the address \"1\" does not have as many digits as the others");
}

TEST_CASE("a row that is missing leaves its bytes unknown, with a warning that names them") {
  const std::string all = rows();
  const std::string text = all.substr(0, 51) + all.substr(2 * 51 + 1);
  CHECK_THAT(warnings_of(all.substr(0, 52) + all.substr(104)), Contains("no line gives 10h-1Fh"));
  static_cast<void>(text);
}

TEST_CASE("what is passed over is said, and numbers among it are a warning") {
  CHECK_THAT(notes_of("Here it is:\n\n" + rows() + "Thanks!\n"),
             Contains("lines 1, 7 passed over"));
  CHECK_THAT(warnings_of(rows() + "Others have 10 20 30 40 there.\n"),
             Contains("line 5 hold numbers"));
}

TEST_CASE("numbers without fixed width carry a warning, columns that one line leaves name it") {
  CHECK_THAT(warnings_of("[33, 0, 88, 0, 5, 0, 5, 21, 2, 148, 38, 2, 80, 128, 0, 0,\n"
                         "64, 0, 240, 0, 65, 128, 2, 128, 1, 39, 0, 0, 0, 0, 0, 0, 0, 0,\n"
                         "0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 2, 155, 128, 1, 25, 0, 65,\n"
                         "66, 32, 67, 32, 124, 62, 35, 61, 46, 45, 127]\n"),
             Contains("a lost digit would not show"));
}

TEST_CASE("a text column that does not fit its row is a warning with the line") {
  CHECK_THAT(
      warnings_of(
          "00000000  21 00 58 00 05 00 05 15  02 94 26 02 50 80 00 00  |!.X.......&.P...|\n"
          "00000010  40 00 f0 00 41 80 02 80  01 28 00 00 00 00 00 00  |@...A....'......|\n"
          "00000020  00 00 00 00 00 00 00 00  00 00 00 00 00 00 02 9b  |................|\n"
          "00000030  80 01 19 00 41 42 20 43  20 7c 3e 23 3d 2e 2d 7f  |....AB C |>#=.-.|\n"),
      Contains("the text column of line 2 does not fit its bytes"));
}

TEST_CASE("what only custom decides is a warning") {
  CHECK_THAT(warnings_of("0000000 0021 0058 0005 1505 9402 0226 8050 0000\n"
                         "0000010 0040 00f0 8041 8002 2701 0000 0000 0000\n"
                         "0000020 0000 0000 0000 0000 0000 0000 0000 9b02\n"
                         "0000030 0180 0019 4241 4320 7c20 233e 2e3d 7f2d\n"
                         "0000040\n"),
             Contains("only custom says") && Contains("order high reads it"));
}

TEST_CASE("the words of the reading options are checked") {
  CHECK(radix_named("--radix", "8") == 8);
  CHECK_THROWS_WITH(radix_named("--radix", "7"), StartsWith("--radix: \"7\""));
  CHECK(width_named("--width", "4") == 4);
  CHECK_THROWS_WITH(width_named("--width", "3"), StartsWith("--width: "));
  CHECK(order_named("--order", "high") == ByteOrder::high_first);
  CHECK_THROWS_WITH(order_named("--order", "middle"), StartsWith("--order: "));
  CHECK(addresses_named("--addresses", "octal") == AddressKind::octal);
  CHECK_THROWS_WITH(addresses_named("--addresses", "roman"), StartsWith("--addresses: "));
  CHECK(offset_named("--at", "128") == 128);
  CHECK(offset_named("--at", "0x80") == 128);
  CHECK(offset_named("--at", "80h") == 128);
  CHECK_THROWS_WITH(offset_named("--at", "-1"), StartsWith("--at: "));
  CHECK(chip_size_named("--size", "64") == 64);
  CHECK_THROWS_WITH(chip_size_named("--size", "96"), StartsWith("--size: "));
}

TEST_CASE("lines that say their byte twice are read, and must agree") {
  std::string text = "addr  hex  dec\n";
  for (std::size_t at = 0; at < 64; ++at) {
    char line[32];
    std::snprintf(line, sizeof line, "%02zX    %02X   %3u\n", at, sample_bytes[at],
                  static_cast<unsigned>(sample_bytes[at]));
    text += line;
  }
  CHECK(read_dump(text, "dump").image == sample_64());
  CHECK_THAT(notes_of(text), Contains("its byte twice"));
  const std::size_t at = text.find("88");
  CHECK_THAT(error_of(text.replace(at, 2, "8 ")).what(),
             StartsWith("dump:4: the two numbers of this line"));
}

TEST_CASE("of two arrays, strings or pieces of base64 one is read, with a warning") {
  std::string list = "a = [";
  for (const unsigned byte : sample_bytes) list += std::to_string(byte) + ", ";
  list += "]\n";
  CHECK_THAT(warnings_of(list + "b" + list.substr(1)), Contains("it holds 1 more"));
  std::string escaped = "a = b'";
  for (std::size_t i = 0; i < 64; ++i) escaped += "\\x41";
  escaped += "'\n";
  CHECK_THAT(warnings_of(escaped + "b" + escaped.substr(1)), Contains("it holds 1 more"));
  // 64 times 41h in base64.
  std::string coded;
  for (int i = 0; i < 21; ++i) coded += "QUFB";
  coded += "QQ==\n";
  CHECK(read_dump(coded, "dump").image == Image(std::vector<std::uint8_t>(64, 0x41)));
  CHECK_THAT(warnings_of(coded + "\n" + coded), Contains("it holds 1 more"));
}

TEST_CASE("two readings of a small chip one behind the other are a warning") {
  std::string text =
      "21 00 58 00 05 00 05 15 02 94 26 02 50 80 00 00\n"
      "40 00 F0 00 41 80 02 80 01 27 00 00 00 00 00 00\n"
      "00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 9B\n"
      "80 01 19 00 41 42 20 43 20 7C 3E 23 3D 2E 2D 7F\n";
  std::string later = text;
  later[1] = '2';
  CHECK_THAT(warnings_of(text + later), Contains("its two halves are alike"));
}
