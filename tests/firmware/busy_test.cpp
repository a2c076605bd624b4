// A board that keeps a chip at rest for somebody else's work, and programs that meet it.
#include <catch2/catch.hpp>

#include "base/error.h"
#include "board/firmware/protocol.h"
#include "test_bench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

/// A chip at rest for a minute, and the program that began it gone.
struct AtRest {
  AtRest() {
    bench.read();
    bench.exchange.run([](Talk& talk) { talk.need({BOARD_REST, {0, 60}}); });
  }

  /// What a work ends in that another program begins now: it was not greeted, for the board was not
  /// reset.
  std::string refusal_of(const std::function<void(Talk&)>& work) {
    Exchange other(bench.board);
    try {
      other.run(work);
    } catch (const Error& error) {
      CHECK(error.refusal() == Refusal::input);
      return error.message();
    }
    return {};
  }

  TestBench bench;
};

}  // namespace

TEST_CASE("a board that keeps a chip at rest says so, and for how long, and nothing is written") {
  AtRest rest;
  const auto before = rest.bench.ram();
  const Moment begun = rest.bench.exchange.now();
  const std::string said = rest.refusal_of([](Talk& talk) { read_chip(talk, {}); });
  // Half a second went by until it was asked who it is.
  CHECK(said == "it keeps the chip without supply for 60 s more");
  CHECK(rest.bench.exchange.now() - begun < Moment{4'000'000});
  CHECK_FALSE(rest.bench.bench.has_supply());
  CHECK(rest.bench.ram() == before);
  CHECK(rest.bench.violations().empty());
}

TEST_CASE("every command about the chip is refused at rest") {
  AtRest rest;
  for (const BoardRequest& request :
       {BoardRequest{BOARD_ON}, BoardRequest{BOARD_WIRES}, BoardRequest{BOARD_READ, {0x20, 1}},
        BoardRequest{BOARD_WRITE, {0x20, 0x55}}, BoardRequest{BOARD_CLOCK},
        BoardRequest{BOARD_SET, {0x26, 0x02}}, BoardRequest{BOARD_EDGE},
        BoardRequest{BOARD_REST, {0, 1}}}) {
    INFO(static_cast<char>(request.command));
    CHECK(rest.refusal_of([&](Talk& talk) { talk.need(request); })
              .starts_with("it keeps the chip without supply for "));
  }
  CHECK(rest.bench.violations().empty());
}

TEST_CASE("to switch off ends a rest, and the chip can be read again") {
  AtRest rest;
  CHECK(rest.refusal_of([](Talk& talk) { switch_off(talk); }).empty());
  CHECK(rest.refusal_of([](Talk& talk) { read_chip(talk, {}); }).empty());
  CHECK(rest.bench.violations().empty());
}
