#include "forms/chip_in_file.h"

#include <catch2/catch.hpp>
#include <cstdio>

#include "forms/samples.h"

using namespace rtcmend;
using Catch::Matchers::Contains;

// What programmers leave of a chip: its bytes among others.

namespace {

std::string chip() {
  return {sample_bytes.begin(), sample_bytes.end()};
}

/// The sample's bytes are a chip's, all others are not.
ReadingOptions judging() {
  ReadingOptions options;
  options.likeness = [](const Image& image) { return image.at(0x2F) == 0x9B ? 20.0 : 0.0; };
  return options;
}

Dump read(const std::string& bytes, const ReadingOptions& options = judging()) {
  return read_dump(bytes, "dump", options);
}

std::string said(const Dump& dump) {
  std::string text;
  for (const std::string& note : dump.remarks.notes) text += note + "\n";
  for (const std::string& warning : dump.remarks.warnings) text += warning + "\n";
  return text;
}

std::string why(const std::string& bytes, const ReadingOptions& options = judging()) {
  try {
    read(bytes, options);
  } catch (const Error& error) {
    return std::string(error.what()) + "\n" + error.remedy();
  }
  return {};
}

}  // namespace

TEST_CASE("a block that is repeated is read once, and said to be") {
  for (const std::size_t times : {4, 8, 32}) {
    std::string bytes;
    for (std::size_t i = 0; i < times; ++i) bytes += chip();
    const Dump dump = read(bytes);
    CHECK(dump.image == sample_64());
    CHECK_THAT(said(dump), Contains("the same 64 " + std::to_string(times) + " times: read once"));
  }
}

TEST_CASE("FF or 00 behind a chip's bytes is left out, and said to be") {
  for (const char fill : {'\xFF', '\0'}) {
    const Dump small = read(chip() + std::string(2048 - 64, fill));
    CHECK(small.image == sample_64());
    CHECK_THAT(said(small), Contains("nothing but") && Contains("say that it has 128"));
    const std::string upper(64, '\x55');
    const Dump large = read(chip() + upper + std::string(256 - 128, fill));
    CHECK(large.image.size() == 128);
    CHECK(large.image.at(0x7F) == 0x55);
  }
}

TEST_CASE("a file of nothing but FF is a chip that says nothing, and no text") {
  CHECK(read(std::string(256, '\xFF')).image == Image(std::vector<std::uint8_t>(64, 0xFF)));
}

TEST_CASE("what looks like no chip is not taken out of a bigger file") {
  const std::string bytes = std::string(64, '\x11') + std::string(192, '\xFF');
  CHECK_THAT(why(bytes), Contains("it holds 256 bytes") &&
                             Contains("by where they begin and how many there are"));
}

TEST_CASE("a line end or another end mark behind the bytes is left out with a warning") {
  for (const std::string tail : {"\n", "\r\n", "\x1A"}) {
    const Dump dump = read(chip() + tail);
    CHECK(dump.image == sample_64());
    REQUIRE(dump.remarks.warnings.size() == 1);
    CHECK_THAT(dump.remarks.warnings.front(), Contains("end mark"));
  }
  CHECK_THAT(why(chip() + "\x41"), Contains("it holds 65 bytes"));
}

TEST_CASE("up to three bytes too few leave the last ones unknown, with a warning") {
  const Dump dump = read(chip().substr(0, 62));
  CHECK(dump.image.size() == 64);
  CHECK(dump.image.at(0x3D) == 0x2E);
  CHECK(dump.image.unknown() == Addresses{0x3E, 0x3F});
  REQUIRE(dump.remarks.warnings.size() == 1);
  CHECK_THAT(dump.remarks.warnings.front(), Contains("62 bytes, 2 fewer than 64"));
  CHECK_THAT(why(chip().substr(0, 60)), Contains("it holds 60 bytes"));
}

TEST_CASE("of 256 bytes of a banked part the first bank is read, and the other named") {
  std::string bytes = chip() + std::string(64, '\x55');
  for (int i = 0; i < 128; ++i) bytes += static_cast<char>(i * 7 + 3);
  const Dump dump = read(bytes);
  CHECK(dump.image.size() == 128);
  CHECK(dump.image.at(0x40) == 0x55);
  CHECK_THAT(said(dump), Contains("two banks of 128") && Contains("begin at 128"));
}

TEST_CASE("a place and a size take the chip's bytes out of anything") {
  const std::string bytes = std::string(300, '\x22') + chip() + std::string(77, '\x33');
  CHECK_THAT(why(bytes), Contains("it holds 441 bytes"));
  ReadingOptions options;
  options.at = 300;
  options.size = 64;
  CHECK(read(bytes, options).image == sample_64());
  options.at = 400;
  CHECK_THAT(why(bytes, options), Contains("from 400 on it holds 41 bytes, fewer than 64"));
  options.at = 441;
  CHECK_THAT(why(bytes, options), Contains("none at 441"));
  options.at = 400;
  options.size.reset();
  CHECK_THAT(why(bytes, options), Contains("Say how many bytes the chip has"));
}

TEST_CASE("a file of many chips leads to the command that judges them all") {
  std::string other = chip();
  other[0] = '\x22';
  CHECK_THAT(why(chip() + other + chip() + other + other),
             Contains("5 chips of 64 bytes") && Contains("judged as one packed file"));
}

TEST_CASE("a listing and records of a bigger file are read as the file itself") {
  std::string listing;
  char line[80];
  for (std::size_t at = 0; at < 256; at += 16) {
    std::snprintf(line, sizeof line, "%08zx:", at);
    listing += line;
    for (std::size_t i = at; i < at + 16; ++i) {
      std::snprintf(line, sizeof line, " %02x", i < 64 ? sample_bytes[i] : 0xFFU);
      listing += line;
    }
    listing += "\n";
  }
  const Dump dump = read(listing);
  CHECK(dump.form == Form::hex);
  CHECK(dump.image == sample_64());
  ReadingOptions second = judging();
  second.at = 64;
  second.size = 64;
  CHECK(read(listing, second).image.at(0) == 0xFF);
}
