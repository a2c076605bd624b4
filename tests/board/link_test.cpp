// The program's side of the wire without a board: peers that are absent, wrong, deaf, of another
// version; the time is told.
#include "board/link.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "base/error.h"
#include "board/firmware/protocol.h"
#include "board/line.h"
#include "board/refusals.h"
#include "board/talk.h"

using namespace rtcmend;

namespace {

using Bytes = std::vector<std::uint8_t>;

constexpr Moment step{5'000};

std::string greeting(std::uint8_t version = BOARD_VERSION) {
  return board_line(BOARD_GREETING, Bytes{version, 0, 0, 0x13, 0x88, 0, 0, 0, 0});
}

/// Lets time pass in which a peer says what it says; returns when trouble came, in milliseconds.
long long trouble_after(BoardLink& link, std::string_view said) {
  for (Moment now{0}; now < Moment{10'000'000}; now += step) {
    link.receive(said, now);
    link.pass(now);
    link.take_output();
    if (link.trouble() != LinkTrouble::none) return now.count() / 1000;
  }
  return -1;
}

}  // namespace

TEST_CASE("a port at which nothing answers is given up within four seconds") {
  BoardLink link(Moment{0});
  const auto after = trouble_after(link, "");
  CHECK(link.trouble() == LinkTrouble::deaf);
  CHECK((after > 3000 && after < 4000));
}

TEST_CASE("a port at which another program speaks is given up within four seconds") {
  BoardLink link(Moment{0});
  const auto after = trouble_after(link, "ready\r\n$GPRMC,1*00\n");
  CHECK(link.trouble() == LinkTrouble::foreign);
  CHECK((after > 3000 && after < 4000));
}

TEST_CASE("a board of another version is named at once, with both versions") {
  BoardLink link(Moment{0});
  CHECK(trouble_after(link, greeting(2)) == 0);
  CHECK(link.trouble() == LinkTrouble::other_version);
  const Error error = trouble_error(LinkTrouble::other_version, 2);
  CHECK(error.message() == "its firmware speaks version 2 of the protocol, this program version 1");
  CHECK(error.refusal() == Refusal::input);
}

TEST_CASE("a greeting is waited for, then asked for each half second") {
  BoardLink link(Moment{0});
  link.pass(Moment{400'000});
  CHECK(link.take_output().empty());
  link.pass(Moment{500'000});
  CHECK(link.take_output() == ">0148E8C5\n");
  link.pass(Moment{999'000});
  CHECK(link.take_output().empty());
  link.pass(Moment{1'000'000});
  CHECK(link.take_output().starts_with(">0248"));
}

TEST_CASE("a greeting of which only the end was heard is no greeting") {
  BoardLink link(Moment{0});
  link.receive(greeting().substr(5), Moment{0});
  CHECK_FALSE(link.is_open());
  link.receive(greeting(), Moment{0});
  CHECK(link.is_open());
  CHECK(link.hello().rail_millivolts == 5000);
}

TEST_CASE("a greeting in the middle of the work makes it void") {
  BoardLink link(Moment{0});
  link.receive(greeting(), Moment{0});
  link.ask({BOARD_ON}, Moment{0});
  link.receive(greeting(), Moment{1000});
  CHECK(link.trouble() == LinkTrouble::was_reset);
}

TEST_CASE("an answer that does not come is asked for again, ten times in all") {
  BoardLink link(Moment{0});
  link.receive(greeting(), Moment{0});
  link.take_output();
  link.ask({BOARD_WIRES}, Moment{0});
  std::vector<std::string> sent;
  for (Moment now{0}; link.trouble() == LinkTrouble::none; now += step) {
    REQUIRE(now < Moment{10'000'000});
    link.pass(now);
    if (const std::string out = link.take_output(); !out.empty()) sent.push_back(out);
  }
  CHECK(link.trouble() == LinkTrouble::silent);
  CHECK(sent == std::vector<std::string>(10, sent[0]));
}

TEST_CASE("an answer to an earlier request is not taken for the present one") {
  BoardLink link(Moment{0});
  link.receive(greeting(), Moment{0});
  link.ask({BOARD_ON}, Moment{0});
  link.receive(board_line(BOARD_REPLY, Bytes{1, BOARD_DONE}), Moment{100});
  REQUIRE(link.take_answer());
  link.ask({BOARD_WIRES}, Moment{200});
  link.receive(board_line(BOARD_REPLY, Bytes{1, BOARD_DONE}), Moment{300});
  CHECK_FALSE(link.take_answer());
  link.receive(board_line(BOARD_REPLY, Bytes{2, BOARD_NO_POWER}), Moment{400});
  CHECK(link.take_answer()->status == BOARD_NO_POWER);
}

TEST_CASE("every status of the board has a message of its own and something to do") {
  std::vector<std::string> messages;
  for (int status = BOARD_NO_POWER; status <= BOARD_NO_EDGE; ++status) {
    const Error error = status_error(static_cast<std::uint8_t>(status), {0x10, 0x02, 0x00});
    INFO(error.message());
    CHECK_FALSE(error.advice().empty());
    CHECK(std::count(messages.begin(), messages.end(), error.message()) == 0);
    messages.push_back(error.message());
  }
  CHECK(messages.size() == 11);
}
