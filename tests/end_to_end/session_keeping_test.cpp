#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

using Words = std::vector<std::string>;

namespace {

/// A folder with a begun session and dumps of one machine.
struct Bench : Workbench {
  Bench() {
    REQUIRE(shell("mkdir machine").code == 0);
    for (const char* name : {"machine/a.bin", "machine/b.bin", "machine/c.bin", "elsewhere.bin"})
      put(name, at_64_bytes());
    put("machine/large.bin", std::vector<std::uint8_t>(128, 0x11));
    REQUIRE(run({"trace", "new", "machine/session.json", "--layout", "at"}).code == 0);
  }
  Ran add(const std::string& dump, const Words& changed = {}) const {
    Words words{"trace", "add", "machine/session.json", dump};
    words.insert(words.end(), changed.begin(), changed.end());
    return run(words);
  }
  nlohmann::json session() const { return nlohmann::json::parse(get("machine/session.json")); }
};

bool says(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a session notes each dump beside it, and what was changed for it") {
  const Bench bench;
  CHECK(bench.add("machine/a.bin").code == 0);
  CHECK(bench.add("machine/b.bin", {"second floppy=1.44M"}).code == 0);
  CHECK(bench.add("machine/c.bin", {"second floppy=none", "beeper=off"}).code == 0);
  CHECK(bench.session() == nlohmann::json::parse(R"({"layout": "at", "steps": [
      {"dump": "a.bin"},
      {"label": "second floppy", "value": "1.44M", "dump": "b.bin"},
      {"values": {"second floppy": "none", "beeper": "off"}, "dump": "c.bin"}]})"));
  const Ran early = bench.run({"trace", "machine/session.json"});
  CHECK(early.code == 2);
  CHECK(says(early.err, "no setting appears with two different values"));
  bench.add("machine/a.bin", {"second floppy=none"});
  CHECK(bench.run({"trace", "machine/session.json"}).code <= 1);
}

TEST_CASE("after each dump it says where the session stands, and the next dump to take") {
  const Bench bench;
  CHECK(says(bench.add("machine/a.bin").out, "1 dump: 1 with nothing changed"));
  bench.add("machine/a.bin");
  CHECK(says(bench.add("machine/a.bin").out, "Next: change one setting"));
  CHECK(says(bench.add("machine/b.bin", {"beeper=on"}).out,
             "Next: set beeper to another value: it was seen at on only"));
  CHECK(says(bench.add("machine/c.bin", {"beeper=off"}).out, "Next: set beeper to off once more"));
  bench.add("machine/c.bin", {"beeper=off"});
  const Ran ran = bench.add("machine/b.bin", {"beeper=on"});
  CHECK(says(ran.out, "  beeper: off 2 times, on 2 times\n"));
  CHECK(says(ran.out, "rtcmend trace machine/session.json"));
}

TEST_CASE("the last step is taken back, one at a time, and no dump is touched") {
  const Bench bench;
  bench.add("machine/a.bin");
  bench.add("machine/b.bin", {"beeper=on"});
  const Ran ran = bench.run({"trace", "undo", "machine/session.json"});
  CHECK(says(ran.out, "Took back b.bin"));
  CHECK(bench.session()["steps"].size() == 1);
  CHECK(bench.has("machine/b.bin"));
  CHECK(bench.run({"trace", "undo", "machine/session.json"}).code == 0);
  CHECK(bench.run({"trace", "undo", "machine/session.json"}).code == 2);
}

TEST_CASE("what cannot be a step is refused, and the session stays as it was") {
  const Bench bench;
  bench.add("machine/a.bin");
  const std::string before = bench.get("machine/session.json");
  const Ran elsewhere = bench.add("elsewhere.bin", {"beeper=on"});
  CHECK(elsewhere.code == 2);
  CHECK(says(elsewhere.err, "put it there"));
  CHECK(says(bench.add("machine/large.bin").err, "of one chip"));
  CHECK(bench.add("machine/missing.bin").code == 2);
  CHECK(says(bench.add("machine/b.bin", {"beeper"}).err, "is not SETTING=VALUE"));
  CHECK(bench.run({"trace", "add", "machine/session.json"}).code == 2);
  CHECK(bench.run({"trace", "undo", "machine/session.json", "more"}).code == 2);
  CHECK(bench.run({"trace", "new", "machine/session.json"}).code == 2);
  CHECK(bench.run({"trace", "new", "other.json", "--layout", "no-such-layout"}).code == 2);
  CHECK_FALSE(bench.has("other.json"));
  CHECK(bench.run({"trace", "machine/session.json", "machine/a.bin"}).code == 2);
  CHECK(bench.get("machine/session.json") == before);
}

TEST_CASE("a session that is no session is never added to") {
  const Bench bench;
  bench.put("machine/session.json", R"({"steps": [{"label": "x", "dump": "a.bin"}]})");
  CHECK(bench.add("machine/a.bin").code == 2);
  bench.put("machine/session.json", R"({"steps": [{"values": ["x"], "dump": "a.bin"}]})");
  CHECK(bench.add("machine/a.bin").code == 2);
  bench.put("machine/session.json", "[]");
  CHECK(bench.run({"trace", "undo", "machine/session.json"}).code == 2);
  CHECK(bench.get("machine/session.json") == "[]");
}
