#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;
using nlohmann::json;
using Words = std::vector<std::string>;

namespace {

/// A 64-byte map on a chip of 128 bytes whose upper half was never written.
std::vector<std::uint8_t> on_a_larger_chip(const std::vector<std::uint8_t>& small) {
  std::vector<std::uint8_t> bytes = small;
  for (unsigned i = 0; i < 64; ++i) bytes.push_back(static_cast<std::uint8_t>(i * 151 + 43));
  return bytes;
}

std::vector<std::uint8_t> read_twice(const std::vector<std::uint8_t>& small) {
  std::vector<std::uint8_t> bytes = small;
  bytes.insert(bytes.end(), small.begin(), small.end());
  return bytes;
}

struct Case {
  Words words;
  int code;
};

/// Every command that takes a dump, with what it ends with on a sound one.
std::vector<Case> commands_that_take_a_dump(const std::string& dump, const std::string& other) {
  return {
      {{"show", dump}, 0},
      {{"show", dump, "--map"}, 0},
      {{"verify", dump}, 0},
      {{"verify", dump, "--again", other}, 0},
      {{"amend", dump, "--set", "floppy_b=360K", "-o", "amended.bin"}, 0},
      {{"seal", dump, "-o", "sealed.bin"}, 0},
      {{"convert", dump, "-o", "converted.hex", "--to", "hex"}, 0},
      {{"compare", dump, other}, 0},
      {{"compare", other, dump}, 0},
      {{"compare", dump, other, "--after-power-off", "30m"}, 1},  // their clock did not run on
      {{"identify", dump}, 0},
      {{"forecast", dump}, 0},
      {{"explain", "161", "--dump", dump}, 0},
      {{"deliver", dump, "--as", "debugger-script", "-o", "write.scr"}, 0},
      {{"deliver", dump, "--as", "boot-floppy", "-o", "write.img"}, 0},
      {{"sheet", dump, "-o", "sheet.html"}, 0},
      {{"page", dump, "-o", "bench.html"}, 0},
      {{"audit", dump}, 0},
      {{"drift", dump, "2031-06-13T09:30:01", "--at", "2031-05-14T09:30:00", "--at",
        "2031-06-13T09:30:00"},
       0},
  };
}

}  // namespace

TEST_CASE("every command that takes a dump takes a 64-byte map on a chip of 128 bytes", "[long]") {
  for (const auto& small : {at_64_bytes(), crc_64_bytes()}) {
    for (const bool twice : {false, true}) {
      const Workbench bench;
      bench.put("large.bin", twice ? read_twice(small) : on_a_larger_chip(small));
      bench.put("small.bin", small);
      for (Case one : commands_that_take_a_dump("large.bin", "small.bin")) {
        std::string line;
        for (const std::string& word : one.words) line += " " + word;
        INFO("rtcmend" << line);
        const Ran ran = bench.run(one.words);
        INFO(ran.err);
        CHECK(ran.code == one.code);
      }
    }
  }
}

TEST_CASE("a history may change from the old part to a larger one") {
  const Workbench bench;
  std::filesystem::create_directory(bench.path("dumps"));
  bench.put("dumps/2031-05-14.bin", at_64_bytes());
  bench.put("dumps/2032-05-14.bin", on_a_larger_chip(at_64_bytes()));
  const Ran ran = bench.run({"history", "dumps", "--json"});
  CHECK(ran.code == 0);
  CHECK(json::parse(ran.out)["entries"].size() == 2);
}

TEST_CASE("what the layout does not use is said to be unused") {
  const Workbench bench;
  bench.put("large.bin", on_a_larger_chip(at_64_bytes()));
  REQUIRE(bench.run({"sheet", "large.bin", "-o", "sheet.html"}).code == 0);
  for (const std::string& text : {bench.run({"verify", "large.bin"}).out,
                                  bench.run({"show", "large.bin"}).out, bench.get("sheet.html")})
    CHECK(text.find("128 bytes, of which the layout uses the first 64") != std::string::npos);
}

TEST_CASE("what the layout does not use is kept by every change") {
  const Workbench bench;
  const auto before = on_a_larger_chip(at_64_bytes());
  bench.put("large.bin", before);
  REQUIRE(bench.run({"amend", "large.bin", "--set", "floppy_b=360K", "-o", "new.bin"}).code == 0);
  const auto after = bench.bytes("new.bin");
  REQUIRE(after.size() == 128);
  CHECK(std::equal(before.begin() + 64, before.end(), after.begin() + 64));
  CHECK(after[0x10] == 0x41);
}

TEST_CASE("what the layout does not use is left alone by a delivery, unless it is asked for") {
  const Workbench bench;
  bench.put("large.bin", on_a_larger_chip(at_64_bytes()));
  const auto keys = [&](Words more) {
    Words words{"deliver", "large.bin", "--as",    "debugger-script",
                "-o",      "out.scr",   "--force", "--json"};
    words.insert(words.end(), more.begin(), more.end());
    const Ran ran = bench.run(words);
    REQUIRE(ran.code == 0);
    return bench.get("out.scr").size();
  };
  const std::size_t used = keys({}), all = keys({"--all-bytes"});
  CHECK(all > used + 100);
}

TEST_CASE("bytes go from one size of chip to the other, and what is not known is not made up") {
  const Workbench bench;
  bench.put("small.bin", at_64_bytes());
  bench.put("large.bin", on_a_larger_chip(at_64_bytes()));
  REQUIRE(bench.run({"convert", "large.bin", "--size", "64", "-o", "cut.bin"}).code == 0);
  CHECK(bench.bytes("cut.bin") == at_64_bytes());
  CHECK(bench.run({"convert", "small.bin", "--size", "128", "-o", "grown.bin"}).code == 2);
  REQUIRE(bench.run({"convert", "small.bin", "--size", "128", "--fill", "FF", "-o", "grown.bin"})
              .code == 0);
  const auto grown = bench.bytes("grown.bin");
  REQUIRE(grown.size() == 128);
  CHECK(grown[0x10] == 0x40);
  CHECK(grown[0x40] == 0xFF);
}

TEST_CASE("a composed image has the size of its part") {
  const Workbench bench;
  bench.put("machine.json", R"({"layout": "at", "set": {"floppy_a": "1.44M"}})");
  REQUIRE(bench.run({"compose", "machine.json", "--part", "DS12887", "-o", "large.bin"}).code == 0);
  CHECK(bench.bytes("large.bin").size() == 128);
  REQUIRE(bench.run({"compose", "machine.json", "-o", "small.bin"}).code == 0);
  CHECK(bench.bytes("small.bin").size() == 64);
}
