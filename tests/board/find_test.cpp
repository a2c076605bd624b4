// Which port has the board, with ports made up and the time told: absent, deaf, another program's,
// of another version, taken; one board, several, none.
#include "board/find.h"

#include <catch2/catch.hpp>
#include <map>

#include "base/error.h"
#include "board/firmware/protocol.h"
#include "board/line.h"

using namespace rtcmend;

namespace {

using Bytes = std::vector<std::uint8_t>;

/// The time, which goes on whenever somebody waits at a port.
Moment present{0};

/// What is at the far end of a port.
enum class Peer { deaf, foreign, board, waits_to_be_asked, newer, unplugged };

std::string greeting(std::uint8_t version) {
  return board_line(BOARD_GREETING, Bytes{version, 0, 0, 0x13, 0x88, 0, 0, 0, 0});
}

class MadeUpPort : public Port {
 public:
  MadeUpPort(std::string name, Peer peer) : name_(std::move(name)), peer_(peer) {}

  std::string read(std::chrono::milliseconds most) override {
    present += most;
    if (peer_ == Peer::unplugged) throw Error(Refusal::file_system, name_, "the port is gone");
    if (peer_ == Peer::foreign) return "OK\r\n";
    if (said_ || peer_ == Peer::deaf) return {};
    if (peer_ == Peer::waits_to_be_asked) return answer();
    said_ = present > Moment{100'000};
    return said_ ? greeting(peer_ == Peer::newer ? 2 : 1) : std::string();
  }
  void write(std::string_view bytes) override { asked_ += bytes; }

 private:
  std::string answer() {
    if (asked_ != ">0148E8C5\n") return {};
    said_ = true;
    return board_line(BOARD_REPLY, Bytes{1, BOARD_DONE, 1, 0, 0, 0x13, 0x88, 0, 0, 0, 0});
  }

  std::string name_, asked_;
  Peer peer_;
  bool said_ = false;
};

using Ports = std::map<std::string, Peer>;

std::unique_ptr<Port> opened(const Ports& ports, const std::string& name) {
  if (name == "taken") throw Error(Refusal::file_system, name, "another program uses this port");
  return std::make_unique<MadeUpPort>(name, ports.at(name));
}

BoardFound only_of(const Ports& ports, std::vector<std::string> also = {}) {
  present = Moment{0};
  std::vector<std::string> names = std::move(also);
  for (const auto& [name, peer] : ports) names.push_back(name);
  return only_board(
      names, [&](const std::string& name) { return opened(ports, name); }, [] { return present; });
}

/// What is said of a port that is named, or of all of them; and how.
struct Said {
  std::string where, what;
  Refusal how = Refusal::input;
};

Said said_of_one(Peer peer) {
  present = Moment{0};
  const Ports ports{{"A", peer}};
  try {
    board_at(
        "A", [&](const std::string& name) { return opened(ports, name); }, [] { return present; });
  } catch (const Error& error) {
    return {error.where(), error.message(), error.refusal()};
  }
  return {};
}

Said said_of(const Ports& ports, std::vector<std::string> also = {}) {
  try {
    only_of(ports, std::move(also));
  } catch (const Error& error) {
    return {error.where(), error.message(), error.refusal()};
  }
  return {};
}

constexpr Moment most{4'000'000};

}  // namespace

TEST_CASE("the one port at which a board answers is found among others") {
  const auto found =
      only_of({{"A", Peer::deaf}, {"B", Peer::foreign}, {"C", Peer::board}}, {"taken"});
  CHECK(found.name == "C");
  CHECK(found.session->link().is_open());
  CHECK(present < most);
}

TEST_CASE("a board that was not reset by the opening is found by asking") {
  CHECK(only_of({{"A", Peer::waits_to_be_asked}}).name == "A");
  CHECK(present < most);
}

TEST_CASE("several boards that answer are named, and none is taken") {
  const Said said =
      said_of({{"A", Peer::board}, {"B", Peer::deaf}, {"C", Peer::waits_to_be_asked}});
  CHECK(said.where == "port");
  CHECK(said.what == "more than one board answers: A, C");
  CHECK(said.how == Refusal::input);
}

TEST_CASE("where no board answers, it is said of each port why") {
  const Said said = said_of({{"A", Peer::deaf}}, {"taken"});
  CHECK(said.where == "board");
  CHECK(said.what ==
        "no board answers. taken: another program uses this port; A: nothing answers on this port");
  CHECK(said.how == Refusal::file_system);
  CHECK(present < most);
  CHECK(
      said_of({{"A", Peer::newer}}).what ==
      "no board answers. A: its firmware speaks version 2 of the protocol, this program version 1");
  CHECK(said_of({{"A", Peer::unplugged}}).what == "no board answers. A: the port is gone");
}

TEST_CASE("without any port that is said") {
  const Said said = said_of({});
  CHECK(said.what == "no serial port is there");
  CHECK(said.how == Refusal::file_system);
}

TEST_CASE("a port that is named is given up within four seconds, with the reason") {
  CHECK(said_of_one(Peer::deaf).what == "nothing answers on this port");
  CHECK(present < most);
  CHECK(said_of_one(Peer::foreign).what ==
        "what answers on this port is not this program's firmware");
  CHECK(present < most);
  CHECK(said_of_one(Peer::newer).what ==
        "its firmware speaks version 2 of the protocol, this program version 1");
  CHECK(present < Moment{200'000});
  for (const Peer peer : {Peer::deaf, Peer::foreign, Peer::newer})
    CHECK(said_of_one(peer).how == Refusal::input);
  CHECK(said_of_one(Peer::unplugged).how == Refusal::file_system);
}
