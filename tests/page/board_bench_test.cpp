// What the page may ask of the board, without one: what is refused before a port opens, and what a
// board says that is absent or another one. With a board: tests/firmware/page_test.cpp.
#include "page/board_bench.h"

#include <catch2/catch.hpp>

#include "page/workbench.h"

using namespace rtcmend;

namespace {

Json call(Workbench& bench, const Json& request) {
  return Json::parse(bench.call(request.dump()));
}

// The machine of workbench_test.cpp: sound by its sum over 10h-2Dh.
const std::string sound_image =
    "4100220010000714112626020080000024"
    "00F000698002800D27000000000000000000000000000000000000000002B3800D208000000000000000000000000"
    "0";

Json check(const std::string& image, const Json& more = Json::object()) {
  Json request{{"do", "board-check"}, {"write", true}, {"image", image}, {"layout", "at"}};
  request.update(more);
  return request;
}

}  // namespace

TEST_CASE("only a sound image goes to the board, unless the person insists") {
  Workbench bench;
  CHECK(call(bench, check(sound_image))["ok"] == true);
  std::string changed = sound_image;
  changed.replace(2 * 0x12, 2, "F1");  // the stored sum is now one short
  const Json refused = call(bench, check(changed));
  CHECK(refused["ok"] == false);
  CHECK(refused["acts"].dump().find("unsound-anyway") != std::string::npos);
  CHECK(call(bench, check(changed, {{"anyway", true}}))["ok"] == true);
}

TEST_CASE("a part that must not go on the board is refused before a port opens") {
  Workbench bench;
  CHECK(call(bench, {{"do", "board-check"}, {"part", "DS12887"}})["ok"] == true);
  const Json refused = call(bench, {{"do", "board-check"}, {"part", "DS12B887"}});
  CHECK(refused["ok"] == false);
  CHECK(refused["what"] ==
        "DS12B887 does not go on this board: its upper bank is reached through AD6, which this "
        "firmware does not do");
  CHECK(call(bench, {{"do", "board-check"}, {"part", "nothing"}})["ok"] == false);
}

TEST_CASE("nothing is written to a chip or taken from it that was not read before") {
  Workbench bench;
  REQUIRE(call(bench, {{"do", "board-open"}, {"now", 0}})["ok"] == true);
  Json write = check(sound_image);
  write["do"] = "board-write";
  write["now"] = 10;
  CHECK(call(bench, write)["what"] == "what the chip holds has not been read and saved");
  CHECK(call(bench, {{"do", "board-hold"}, {"now", 10}, {"seconds", 60}})["what"] ==
        "what the chip holds has not been read and saved");
}

TEST_CASE("without an open port nothing is begun") {
  Workbench bench;
  CHECK(call(bench, {{"do", "board-read"}, {"now", 0}})["what"] == "no port is open");
  CHECK(call(bench, {{"do", "board-turn"}, {"now", 0}, {"came", ""}})["what"] == "no port is open");
  CHECK(call(bench, {{"do", "board-sing"}})["ok"] == false);
}

TEST_CASE("what no board can do is refused") {
  Workbench bench;
  REQUIRE(call(bench, {{"do", "board-open"}, {"now", 0}})["ok"] == true);
  CHECK(call(bench, {{"do", "board-read"}, {"now", 0}, {"size", "256"}})["ok"] == false);
  CHECK(call(bench, {{"do", "board-clock"}, {"now", 0}, {"wall", 0}, {"seconds", 0}})["ok"] ==
        false);
  CHECK(call(bench, {{"do", "board-clock"}, {"now", 0}, {"wall", 0}, {"seconds", 65536}})["ok"] ==
        false);
}

TEST_CASE("a port at which nothing answers is given up by the page within four seconds") {
  Workbench bench;
  call(bench, {{"do", "board-open"}, {"now", 0}});
  call(bench, {{"do", "board-read"}, {"now", 0}});
  std::string said;
  long long now = 0;
  for (; now < 10'000'000 && said.empty(); now += 5000) {
    const Json turn = call(bench, {{"do", "board-turn"}, {"now", now}, {"came", ""}});
    if (turn["ok"] == false) said = turn["what"];
  }
  CHECK(said == "nothing answers on this port");
  CHECK(now < 4'000'000);
}

TEST_CASE("the page may choose from every part that is known for the board") {
  Workbench bench;
  const Json offer = call(bench, {{"do", "board-offer"}});
  CHECK(offer["parts"].size() == 24);
  CHECK(offer["parts"][0]["part"] == "MC146818");
  CHECK(offer["parts"][0]["fits"] == false);
}
