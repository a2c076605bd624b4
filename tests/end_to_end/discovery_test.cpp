#include <catch2/catch.hpp>
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>

#include "discover/small_machine.h"
#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;
using nlohmann::json;

namespace {

using Bytes = std::vector<std::uint8_t>;

/// A sound AT-class image with some bytes of 10h-2Dh set otherwise, its sum put right.
Bytes changed(const std::vector<std::pair<std::size_t, std::uint8_t>>& bytes) {
  Bytes image = at_64_bytes();
  for (const auto& [at, value] : bytes) image[at] = value;
  unsigned sum = 0;
  for (std::size_t at = 0x10; at <= 0x2D; ++at) sum += image[at];
  image[0x2E] = static_cast<std::uint8_t>(sum >> 8);
  image[0x2F] = static_cast<std::uint8_t>(sum);
  return image;
}

/// Five dumps of one machine, after different settings were saved.
struct Bench : Workbench {
  Bench() {
    put("0.bin", at_64_bytes());
    put("1.bin", changed({{0x10, 0x24}, {0x2D, 0x91}, {0x17, 0x40}}));
    put("2.bin", changed({{0x19, 0xFB}, {0x20, 0x77}, {0x2C, 0xC3}}));
    put("3.bin", changed({{0x10, 0x11}, {0x1B, 0xE9}, {0x2D, 0xB8}, {0x22, 0xFE}}));
    put("4.bin", changed({{0x14, 0x4F}, {0x18, 0x3C}, {0x2A, 0xDA}, {0x2B, 0xFF}}));
  }
  Ran solve(std::vector<std::string> words) const {
    words.insert(words.begin(), "solve");
    return run(words);
  }
};

}  // namespace

TEST_CASE("solve finds the sum that several dumps share") {
  const Bench bench;
  const Ran ran = bench.solve({"0.bin", "1.bin", "2.bin", "3.bin", "4.bin", "--json"});
  CHECK(ran.code == 0);
  const json solution = json::parse(ran.out);
  CHECK(solution["decided"] == true);
  CHECK(solution["complete"] == true);
  const json& model = solution["models"][0];
  CHECK(model["kind"] == "sum");
  CHECK(model["width"] == 16);
  CHECK(model["init"] == 0);
  CHECK(model["poly"].is_null());
  CHECK(model["over"] == json::array({0x10, 0x2D}));
  CHECK(model["at"] == 0x2E);
  CHECK(model["order"] == "high-first");
  CHECK(model["chance"] < 0.01);
}

TEST_CASE("solve says in figures what two dumps cannot do, and what to dump next") {
  const Bench bench;
  const Ran ran = bench.solve({"0.bin", "1.bin"});
  CHECK(ran.code == 1);
  CHECK(ran.out.find("2 different dumps.") == 0);
  CHECK(ran.out.find("2 more needed") != std::string::npos);
  CHECK(ran.out.find("Too few dumps to look") != std::string::npos);
  CHECK(ran.out.find("Dump 2 times more. Best next change: ") != std::string::npos);
}

TEST_CASE("a known kind, width, place and range let two dumps do") {
  const Bench bench;
  const Ran ran = bench.solve({"0.bin", "1.bin", "--kind", "sum", "--width", "16", "--at", "2E",
                               "--over", "10-2D", "--json"});
  const json solution = json::parse(ran.out);
  REQUIRE(solution["models"].size() > 0);
  CHECK(solution["models"][0]["over"] == json::array({0x10, 0x2D}));
  CHECK(solution["models"][0]["order"] == "high-first");
}

TEST_CASE("a hole that the check does not have hides it") {
  const Bench bench;
  const Ran ran = bench.solve({"0.bin", "1.bin", "2.bin", "3.bin", "4.bin", "--kind", "sum",
                               "--width", "16", "--hole", "2D", "--json"});
  CHECK(ran.code == 1);
  const json solution = json::parse(ran.out);
  for (const json& model : solution["models"]) CHECK(model["at"] != 0x2E);
}

TEST_CASE("solve refuses what it cannot compare") {
  const Bench bench;
  CHECK(bench.solve({"0.bin"}).code == 2);
  CHECK(bench.solve({"0.bin", "0.bin"}).code == 2);
  CHECK(complains(bench.solve({"0.bin", "1.bin", "--kind", "hash"}), "--kind", "sum, xor"));
  CHECK(complains(bench.solve({"0.bin", "1.bin", "--width", "32"}), "--width", "8 or 16"));
}

TEST_CASE("trace writes a draft that reads the dumps, and adds to it later") {
  const Bench bench;
  bench.put("5.bin", changed({{0x10, 0x20}}));
  bench.put("6.bin", changed({{0x10, 0x30}}));
  bench.put("7.bin", changed({{0x2D, 0x01}}));
  Ran ran =
      bench.run({"trace", "--idle", "0.bin", "--idle", "0.bin", "--step", "floppy_a=1.44M:0.bin",
                 "--step", "floppy_a=1.44M:0.bin", "--step", "floppy_a=1.2M:5.bin", "--step",
                 "floppy_a=1.2M:5.bin", "--layout", "at", "-o", "draft.json"});
  INFO(ran.err);
  CHECK(ran.code == 0);
  const json shown =
      json::parse(bench.run({"show", "5.bin", "--layout", "draft.json", "--json"}).out);
  CHECK(shown["fields"][0]["id"] == "floppy_a");
  CHECK(shown["fields"][0]["value"] == "1.2M");

  ran = bench.run({"trace", "--step", "floppy_a=720K:6.bin", "--step", "floppy_a=1.44M:0.bin",
                   "--step", "turbo=off:0.bin", "--step", "turbo=on:7.bin", "--layout", "at",
                   "--into", "draft.json", "-o", "better.json"});
  INFO(ran.err);
  CHECK(ran.code == 0);
  CHECK(bench.run({"layouts", "check", "better.json"}).code == 0);
  const json better = json::parse(bench.get("better.json"));
  std::map<std::string, json> settings;  // the rest is what never changed
  for (const json& field : better["fields"])
    if (field["group"] == "traced") settings[field["id"]] = field;
  REQUIRE(settings.size() == 2);
  CHECK(settings.count("floppy_a") == 1);
  CHECK(settings["turbo"]["at"] == "2D");
}

TEST_CASE("what moves between dumps with nothing changed is left out of a search, and said") {
  const Bench bench;
  // Two bytes behind the sum that count the starts.
  const auto started = [](Bytes image, std::uint8_t count) {
    image[0x33] = count;
    image[0x36] = static_cast<std::uint8_t>(0x80 + count);
    return image;
  };
  bench.put("idle0.bin", started(at_64_bytes(), 0));
  bench.put("idle1.bin", started(at_64_bytes(), 1));
  bench.put("one.bin", started(changed({{0x10, 0x24}, {0x2D, 0x91}, {0x17, 0x40}}), 3));
  const Ran ran = bench.solve({"one.bin", "2.bin", "3.bin", "4.bin", "--idle", "idle0.bin",
                               "--idle", "idle1.bin", "--json"});
  const json solution = json::parse(ran.out);
  CHECK(solution["restless"] == json::array({0x33, 0x36}));
  CHECK(solution["models"][0]["at"] == 0x2E);
  for (const json& model : solution["models"]) {
    CHECK(model["at"] != 0x33);
    CHECK(model["at"] != 0x36);
  }
  const Ran text = bench.solve(
      {"one.bin", "2.bin", "3.bin", "4.bin", "--idle", "idle0.bin", "--idle", "idle1.bin"});
  CHECK(text.out.find("33h, 36h") != std::string::npos);
}

TEST_CASE("solve names the file of the one dump that no check fits") {
  const Bench bench;
  bench.put("5.bin", changed({{0x11, 0x35}, {0x13, 0x9A}, {0x25, 0x07}}));
  auto damaged = changed({{0x12, 0x44}, {0x26, 0x5C}});
  damaged[0x2F] ^= 0x40;
  bench.put("damaged.bin", damaged);
  const Ran ran = bench.solve({"0.bin", "1.bin", "2.bin", "damaged.bin", "3.bin", "4.bin", "5.bin",
                               "--kind", "sum", "--width", "16"});
  CHECK(ran.code == 1);
  CHECK(ran.out.find("Mistake: damaged.bin") != std::string::npos);
  CHECK(ran.out.find("16-bit sum over 10h-2Dh, stored at 2Eh-2Fh") != std::string::npos);
}

TEST_CASE("an earlier draft's check that new dumps break is narrowed before it is written with",
          "[long]") {
  const SmallMachine machine{64, [](SmallMachine::Bytes& d, const SmallMachine::Settings& s, int) {
                               const auto set = [&](const char* name) {
                                 return byte(s.count(name) != 0 ? s.at(name) : 0);
                               };
                               d[0x12] = set("c");
                               d[0x19] = set("a");
                               d[0x22] = set("b");
                               d[0x2A] = 0x5A;
                               d[0x31] = 0xA7;
                               d[0x30] = byte(sum(d, 0x14, 0x30));
                             }};
  const Workbench bench;
  const auto trace = [&](const std::vector<Step>& steps, const std::string& prefix,
                         std::vector<std::string> words) {
    words.insert(words.begin(), "trace");
    for (const Step& step : steps) {
      const std::string name = prefix + step.name + ".bin";
      bench.put(name, Bytes(step.image.bytes().begin(), step.image.bytes().end()));
      const bool idle = step.setting.empty();
      words.push_back(idle ? "--idle" : "--step");
      words.push_back(idle ? name : step.setting + "=" + step.value + ":" + name);
    }
    return bench.run(words);
  };
  const auto first = session_of(machine, {{"a", {0, 255, 91, 166}}, {"b", {0, 99, 52, 201}}});
  REQUIRE(trace(first, "one-", {"-o", "first.json"}).code == 0);
  const Ran ran = trace(session_of(machine, {{"c", {0, 255, 77, 130}}}), "two-",
                        {"--into", "first.json", "-o", "both.json"});
  INFO(ran.out << ran.err);
  CHECK(ran.code == 0);
  CHECK(ran.out.find("does not hold in the new dumps; over 13-2F it\n") != std::string::npos);
  CHECK(ran.out.find("Wrote the draft layout both.json.") != std::string::npos);
  const Image with_a = machine.dump({{"a", 91}}, 0);
  bench.put("a91.bin", Bytes(with_a.bytes().begin(), with_a.bytes().end()));
  const Ran amended =
      bench.run({"amend", "a91.bin", "--layout", "both.json", "--set", "c=77", "-o", "new.bin"});
  INFO(amended.out << amended.err);
  CHECK(amended.code == 0);
  CHECK(bench.bytes("new.bin")[0x12] == 77);
  CHECK(bench.bytes("new.bin")[0x30] == 0xB5);  // 5Ah + 91
}

TEST_CASE("mixed dumps let trace find the check that one setting does not show") {
  const Bench bench;
  bench.put("5.bin", changed({{0x10, 0x20}}));
  const std::vector<std::string> session = {"trace",
                                            "--idle",
                                            "0.bin",
                                            "--idle",
                                            "0.bin",
                                            "--step",
                                            "floppy_a=1.44M:0.bin",
                                            "--step",
                                            "floppy_a=1.2M:5.bin",
                                            "--json"};
  CHECK(json::parse(bench.run(session).out)["checks"].empty());
  std::vector<std::string> with_mixed = session;
  for (const char* dump : {"1.bin", "2.bin", "3.bin", "4.bin"})
    with_mixed.insert(with_mixed.end(), {"--mixed", dump});
  with_mixed.insert(with_mixed.end(), {"-o", "draft.json"});
  const json traced = json::parse(bench.run(with_mixed).out);
  REQUIRE(traced["checks"].size() == 1);
  CHECK(traced["checks"][0]["at"] == 0x2E);
  CHECK(bench.run({"trace", "--step", "a=0:0.bin", "--step", "a=1:5.bin", "--mixed", "none.bin"})
            .code == 2);

  // What nobody saw goes along with every image of the draft.
  for (const Ran& ran : {bench.run({"amend", "0.bin", "--layout", "draft.json", "--set",
                                    "floppy_a=1.2M", "-o", "new.bin", "--unsound-anyway"}),
                         bench.run({"deliver", "0.bin", "--layout", "draft.json", "--as",
                                    "dos-program", "-o", "mend.com", "--unsound-anyway"})}) {
    INFO(ran.err);
    CHECK(ran.out.find("This layout is a draft.") != std::string::npos);
  }
}

TEST_CASE("a draft to add to that is no layout is refused with its place") {
  const Bench bench;
  bench.put("odd.json", R"({"layout": "x", "title": "t", "fields": [{"id": 1}]})");
  bench.put("list.json", "[]");
  for (const std::string draft : {"odd.json", "list.json"}) {
    const Ran ran = bench.run({"trace", "--step", "a=0:0.bin", "--step", "a=1:1.bin", "--layout",
                               "at", "--into", draft, "-o", "out.json"});
    CHECK(ran.code == 2);
    CHECK(ran.err.find("rtcmend: " + draft) == 0);
    CHECK_FALSE(bench.has("out.json"));
  }
}

TEST_CASE("the worked example of the documentation comes out as it says") {
  const Workbench bench;
  std::filesystem::copy(std::string(RTCMEND_SOURCE_DIR) + "/examples/unknown",
                        bench.path("unknown"));
  const Ran ran = bench.run({"trace", "unknown/session.json", "-o", "draft.json"});
  CHECK(ran.code == 0);
  CHECK(ran.out.find("floppy_b\n  14h bits 6-4: codes\n") == 0);
  CHECK(ran.out.find("Check: CRC-16, polynomial 1021h over 10h-2Fh, stored at 3Eh-3Fh") !=
        std::string::npos);
  CHECK(json::parse(bench.get("draft.json")) == json::parse(bench.get("unknown/draft.json")));
  const Ran amended = bench.run({"amend", "unknown/dump00.bin", "--layout", "draft.json", "--set",
                                 "floppy_b=1.44M", "-o", "new.bin"});
  INFO(amended.err);
  CHECK(amended.code == 0);
}

TEST_CASE("ranges, widths and kinds that are none are refused by their option") {
  const Bench bench;
  const auto refused = [&](const std::string& option, const std::string& value) {
    const Ran ran = bench.solve({"0.bin", "1.bin", option, value});
    CHECK(ran.code == 2);
    CHECK(complains(ran, option, "\"" + value + "\" is not a range of bytes from 00 to 7F"));
  };
  refused("--over", "2D-10");
  refused("--at", "80");
  refused("--hole", "x");
  CHECK(complains(bench.solve({"0.bin", "1.bin", "--width", "12"}), "--width",
                  "a check has 8 or 16 bits, not 12"));
  CHECK(complains(bench.solve({"0.bin", "1.bin", "--kind", "sun"}), "--kind", "\ntry: sum\n"));
}

TEST_CASE("of a sum of 16 bits the lower half alone is found when 8 bits are asked for") {
  const Bench bench;
  const Ran ran =
      bench.solve({"0.bin", "1.bin", "2.bin", "3.bin", "4.bin", "--width", "8", "--json"});
  const json model = json::parse(ran.out)["models"][0];
  CHECK(model["kind"] == "sum");
  CHECK(model["width"] == 8);
  CHECK(model["at"] == 0x2F);
}

TEST_CASE("trace needs a step, from a file or from the command line") {
  const Bench bench;
  bench.put("empty.json", R"({"steps": []})");
  for (const auto& words :
       std::vector<std::vector<std::string>>{{"trace"}, {"trace", "empty.json"}}) {
    const Ran ran = bench.run(words);
    CHECK(ran.code == 2);
    CHECK(complains(ran, "trace", "there is neither a session file nor a step"));
  }
}

TEST_CASE("what a session file names stands beside it or below") {
  const Bench bench;
  std::filesystem::create_directory(bench.path("box"));
  bench.put("box/0.bin", at_64_bytes());
  bench.put("box/mine.json", R"({"layout": "mine", "title": "Mine", "checks": [
      {"id": "sum-10-2d", "source": "s", "sum": {"width": 16}, "over": ["10-2D"],
       "stored": {"at": "2E", "order": "high-first"}}]})");
  bench.put("box/session.json", R"({"layout": "mine.json", "steps": [
      {"dump": "0.bin"}, {"dump": "0.bin"},
      {"label": "floppy_a", "value": "1.44M", "dump": "0.bin"},
      {"label": "floppy_a", "value": "1.2M", "dump": "more/5.bin"}]})");
  std::filesystem::create_directory(bench.path("box/more"));
  bench.put("box/more/5.bin", changed({{0x10, 0x20}}));
  const Ran ran = bench.run({"trace", "box/session.json", "-o", "draft.json", "--json"});
  INFO(ran.err);
  CHECK(json::parse(ran.out).is_object());
  std::string session = bench.get("box/session.json");
  session.replace(session.find("mine.json"), 9, "at");
  bench.put("box/session.json", session);
  CHECK(bench.run({"trace", "box/session.json", "--json"}).out == ran.out);
  const json draft = json::parse(bench.get("draft.json"));
  CHECK(draft["fields"][0]["id"] == "floppy_a");
  CHECK(draft["fields"][0]["at"] == "10");
  for (std::size_t i = 1; i < draft["fields"].size(); ++i)
    CHECK(draft["fields"][i]["group"] == "never changed");
}

TEST_CASE("a draft on standard output has it alone, and a bad dump ends with 1") {
  const Bench bench;
  bench.put("5.bin", changed({{0x10, 0x20}}));
  Ran ran = bench.run({"trace", "--idle", "0.bin", "--step", "floppy_a=1.44M:0.bin", "--step",
                       "floppy_a=1.2M:5.bin", "--layout", "at", "-o", "-"});
  INFO(ran.err);
  CHECK(json::parse(ran.out)["fields"][0]["id"] == "floppy_a");
  CHECK(ran.err.find("floppy_a") != std::string::npos);
  // The second dump of 360K shows what 1.2M shows.
  bench.put("6.bin", changed({{0x10, 0x10}}));
  ran = bench.run({"trace", "--step", "floppy_a=1.44M:0.bin", "--step", "floppy_a=1.2M:5.bin",
                   "--step", "floppy_a=360K:6.bin", "--step", "floppy_a=1.44M:0.bin", "--step",
                   "floppy_a=1.2M:5.bin", "--step", "floppy_a=360K:5.bin", "--layout", "at",
                   "--json"});
  CHECK(ran.code == 1);
  const json traced = json::parse(ran.out);
  CHECK(traced["contradictions"].empty());
  REQUIRE(traced["mistakes"].size() == 1);
  CHECK(traced["mistakes"][0]["text"].get<std::string>().find("5.bin (floppy_a=360K)") == 0);
}
