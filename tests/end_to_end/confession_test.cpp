// What a file says of a misread dump goes with its bytes, as far as a form can say it.
#include <catch2/catch.hpp>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

/// The sound machine with data line 5 at 1: 20h in every byte.
void put_stuck(const Workbench& bench) {
  auto bytes = at_64_bytes();
  for (std::uint8_t& byte : bytes) byte |= 0x20;
  bench.put("stuck.bin", bytes);
}

const std::vector<std::string> reading{"--form", "raw", "--layout", "at"};

Ran seal(const Workbench& bench, std::vector<std::string> words) {
  words.insert(words.begin(), {"seal", "stuck.bin"});
  words.insert(words.end(), reading.begin(), reading.end());
  return bench.run(words);
}

}  // namespace

TEST_CASE("what was written from a misread dump says so, and is refused like it") {
  const Workbench bench;
  put_stuck(bench);
  CHECK(seal(bench, {"-o", "sealed.json"}).code == 2);
  CHECK_FALSE(bench.has("sealed.json"));
  CHECK(seal(bench, {"-o", "sealed.json", "--unsound-anyway"}).code == 1);
  CHECK(bench.get("sealed.json").find("\"misread\": [\n    \"Data bit 5 is 1 in every byte") !=
        std::string::npos);
  const Ran again = bench.run({"amend", "sealed.json", "--clock", "now", "-o", "dated.bin"});
  CHECK(again.code == 2);
  CHECK(complains(again, "sealed.json", "misread-before"));
  const Ran audited = bench.run({"audit", "sealed.json"});
  CHECK(audited.code == 1);
  CHECK(audited.out.find("misread before") != std::string::npos);
}

TEST_CASE("converting keeps what a file confesses, or says that the form cannot") {
  const Workbench bench;
  put_stuck(bench);
  seal(bench, {"-o", "sealed.json", "--unsound-anyway"});
  CHECK(bench.run({"convert", "sealed.json", "--to", "json", "-o", "b.json"}).code == 0);
  CHECK(bench.get("b.json").find("\"misread\"") != std::string::npos);
  const Ran raw = bench.run({"convert", "sealed.json", "-o", "c.bin"});
  CHECK(raw.code == 0);
  CHECK(raw.out.find("Note: This file says that its bytes come from a misread dump") !=
        std::string::npos);
  CHECK(raw.out.find("Only the json form can say so.") != std::string::npos);
}

namespace {

/// The sound machine with a floppy code of 4 under a check that does not hold: no list has it, and
/// nothing vouches for it until the image is sealed.
void put_unlisted(const Workbench& bench) {
  auto bytes = at_64_bytes();
  bytes[0x10] = 0x49;
  bench.put("odd.bin", bytes);
}

const std::vector<std::string> insisted{"seal", "odd.bin", "--layout", "at", "--unsound-anyway"};

Ran seal_odd(const Workbench& bench, const char* output) {
  std::vector<std::string> words = insisted;
  words.insert(words.end(), {"-o", output});
  return bench.run(words);
}

}  // namespace

TEST_CASE("what was sealed because somebody insisted stays unproven, as far as a form can say it") {
  const Workbench bench;
  put_unlisted(bench);
  CHECK(bench.run({"seal", "odd.bin", "--layout", "at", "-o", "sealed.json"}).code == 2);
  CHECK(seal_odd(bench, "sealed.json").code == 1);
  CHECK(bench.get("sealed.json").find("\"sealed_anyway\": [\n    \"") != std::string::npos);

  const Ran verified = bench.run({"verify", "sealed.json", "--json"});
  CHECK(verified.code == 1);
  CHECK(verified.out.find("\"settings\":\"unproven\"") != std::string::npos);
  CHECK(verified.out.find("\"sealed-before\"") != std::string::npos);
  CHECK(bench.run({"audit", "sealed.json"}).out.find("unproven sealed anyway") !=
        std::string::npos);
  const Ran again = bench.run({"amend", "sealed.json", "--clock", "now", "-o", "dated.json"});
  CHECK(again.code == 2);
  CHECK(complains(again, "sealed.json", "sealed-before"));
  CHECK(bench.run({"deliver", "sealed.json", "--as", "dos-program", "-o", "mend.com"}).code == 2);
}

TEST_CASE("a confession goes from file to file as it was first said") {
  const Workbench bench;
  put_unlisted(bench);
  seal_odd(bench, "a.json");
  CHECK(bench
            .run({"amend", "a.json", "--clock", "2031-06-01T12:00:00", "--unsound-anyway", "-o",
                  "b.json"})
            .code == 1);
  CHECK(bench.run({"convert", "b.json", "-o", "c.json"}).code == 0);
  const auto said = [&](const char* name) {
    const std::string text = bench.get(name);
    const std::size_t from = text.find("\"sealed_anyway\"");
    REQUIRE(from != std::string::npos);
    return text.substr(from, text.find(']', from) - from);
  };
  CHECK(said("b.json") == said("a.json"));
  CHECK(said("c.json") == said("a.json"));
}

TEST_CASE("a form that cannot confess is said to forget") {
  const Workbench bench;
  put_unlisted(bench);
  const Ran raw = seal_odd(bench, "sealed.bin");
  CHECK(raw.code == 1);
  CHECK(raw.out.find("This form cannot say what is wrong with its bytes") != std::string::npos);
  CHECK(bench.run({"verify", "sealed.bin", "--layout", "at"}).code == 0);
  CHECK(seal_odd(bench, "sealed.json").out.find("This form cannot say") == std::string::npos);
  const Ran converted = bench.run({"convert", "sealed.json", "-o", "c.bin"});
  CHECK(converted.out.find("Only the json form can say so.") != std::string::npos);
}

TEST_CASE("what the bytes show by themselves is not confessed") {
  const Workbench bench;
  bench.put("clock.bin", at_64_bytes());
  // The layout of the chip alone proves nothing, and says so each time.
  CHECK(bench
            .run({"amend", "clock.bin", "--layout", "chip", "--clock", "2031-06-01T12:00:00",
                  "--unsound-anyway", "-o", "dated.json"})
            .code == 1);
  CHECK(bench.get("dated.json").find("sealed_anyway") == std::string::npos);
}
