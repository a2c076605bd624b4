// The page's calls against the simulated board: all that its script does is to hand on bytes and
// time, as here.
#include <catch2/catch.hpp>

#include "page/image_text.h"
#include "page/workbench.h"
#include "support/sound_images.h"
#include "test_bench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

/// The page's side of a port.
class PageAtBoard {
 public:
  explicit PageAtBoard(const ClockChipTraits& chip = {})
      : bench_(chip), board_(RTCMEND_FIRMWARE, bench_) {
    ask("board-open");
  }

  Json ask(const std::string& verb, Json request = Json::object()) {
    request["do"] = verb;
    request["now"] = board_.now() / (clocks_per_second / 1'000'000);
    return Json::parse(page_.call(request.dump()));
  }

  /// A piece of work to its end: its result, or the refusal.
  Json work(const std::string& verb, const Json& request = Json::object()) {
    if (const Json begun = ask(verb, request); begun["ok"] == false) return begun;
    for (;;) {
      board_.run_milliseconds(1);
      const Json turn = ask("board-turn", {{"came", hex_text(board_.take())}});
      if (turn["ok"] == false) return turn;
      board_.send(bytes_from_hex(turn["go"].get<std::string>()));
      if (turn["done"] == true) return turn.value("result", Json::object());
    }
  }

  Bench& bench() { return bench_; }
  SimulatedBoard& board() { return board_; }
  std::vector<std::string> violations() {
    bench_.finish(board_.now());
    return bench_.violations();
  }

 private:
  Bench bench_;
  SimulatedBoard board_;
  Workbench page_;
};

Json sound_card() {
  return {{"image", image_text(at_64_image())}, {"layout", "at"}};
}

}  // namespace

TEST_CASE("the page reads a chip, writes the card into it, and leaves it off") {
  PageAtBoard page;
  for (std::size_t at = 0x0E; at < 128; ++at)
    page.bench().chip.put(static_cast<std::uint8_t>(at), static_cast<std::uint8_t>(at ^ 0x5A));
  const Json read = page.work("board-read");
  INFO(read.dump());
  REQUIRE(read.contains("content"));
  CHECK(read["size"] == 128);
  CHECK(read["cell_low"] == false);
  CHECK(read["content"].get<std::string>().substr(2 * 0x7E) == "2425");  // 7Eh, 7Fh
  CHECK(page.work("board-stay") == Json::object());

  const Json written = page.work("board-write", sound_card());
  INFO(written.dump());
  CHECK(written["comparison"]["equal"] == true);
  CHECK(written["ready"] == true);
  const auto bytes = page.bench().chip.bytes(page.board().now());
  const auto wanted = at_64_bytes();
  CHECK(std::equal(wanted.begin() + 14, wanted.end(), bytes.begin() + 14));
  CHECK(bytes[0x40] == (0x40 ^ 0x5A));  // beyond the image

  CHECK(page.work("board-off") == Json::object());
  CHECK_FALSE(page.bench().has_supply());
  CHECK(page.violations().empty());
}

TEST_CASE("the page sets the chip's clock by its own") {
  PageAtBoard page;
  page.work("board-read");
  Json card = sound_card();
  card["set_clock"] = true;
  card["wall"] = 1'621'071'000'500LL;  // 2031-05-15T09:30:00.5
  const Json written = page.work("board-write", card);
  CHECK(written["comparison"]["equal"] == true);
  const auto bytes = page.bench().chip.bytes(page.board().now());
  CHECK(bytes[0x09] == 0x31);
  CHECK(bytes[0x08] == 0x05);
  CHECK(bytes[0x07] == 0x15);
  CHECK(bytes[0x04] == 0x09);
  CHECK(bytes[0x02] == 0x30);
}

TEST_CASE("the page says whether a chip holds, sound and with a dead cell", "[long]") {
  for (const Cell cell : {Cell::sound, Cell::dead}) {
    ClockChipTraits traits;
    traits.cell = cell;
    PageAtBoard page(traits);
    page.work("board-read");
    const Json held = page.work("board-hold", {{"seconds", 20}});
    INFO(held.dump());
    CHECK(held["retention"]["verdict"] == (cell == Cell::sound ? "kept" : "all-lost"));
    page.work("board-off");
    CHECK(page.violations().empty());
  }
}

TEST_CASE("the page measures the clock against its own", "[long]") {
  ClockChipTraits traits;
  traits.ppm = 80;
  PageAtBoard page(traits);
  const Json clock = page.work("board-clock", {{"seconds", 60}, {"wall", 1'621'071'000'000LL}});
  INFO(clock.dump());
  CHECK(std::abs(clock["ppm"].get<double>() - 80) < 5);  // the uncertainty of a minute is 4.2
  CHECK(clock["verdict"] == "outside");
  CHECK(clock["edges"].get<int>() >= 58);
  CHECK(clock["reference"].get<std::string>().starts_with("2031-05-15T09:31:"));
}

TEST_CASE("a board that is reset under the page's hands makes the work void") {
  PageAtBoard page;
  page.work("board-read");
  page.ask("board-write", sound_card());
  page.board().run_milliseconds(5);
  page.board().reset();
  std::string said;
  for (int i = 0; i < 1000 && said.empty(); ++i) {
    page.board().run_milliseconds(1);
    const Json turn = page.ask("board-turn", {{"came", hex_text(page.board().take())}});
    if (turn["ok"] == false) said = turn["what"];
  }
  CHECK(said ==
        "it was reset in the middle, so that the chip was without supply; the work is void");
}
