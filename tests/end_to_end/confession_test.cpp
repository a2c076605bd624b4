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
  CHECK(audited.out.find("misread-before") != std::string::npos);
}

TEST_CASE("converting keeps what a file confesses, or says that the form cannot") {
  const Workbench bench;
  put_stuck(bench);
  seal(bench, {"-o", "sealed.json", "--unsound-anyway"});
  CHECK(bench.run({"convert", "sealed.json", "--to", "json", "-o", "b.json"}).code == 0);
  CHECK(bench.get("b.json").find("\"misread\"") != std::string::npos);
  const Ran raw = bench.run({"convert", "sealed.json", "-o", "c.bin"});
  CHECK(raw.code == 0);
  CHECK(raw.out.find("Note: the input says that its bytes come from a misread dump") !=
        std::string::npos);
}
