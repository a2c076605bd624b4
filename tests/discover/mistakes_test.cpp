// One session, one slip of the person at the bench in each test.

#include "discover/mistakes.h"

#include <catch2/catch.hpp>

#include "discover/small_machine.h"
#include "discover/trace.h"

using namespace rtcmend;
using namespace rtcmend::test;
using Bytes = SmallMachine::Bytes;
using Settings = SmallMachine::Settings;

namespace {

// Dumps 0-2 idle, 3-10 a, 11-18 b, each value twice.
std::vector<Step> session() {
  const SmallMachine machine{64, [](Bytes& d, const Settings& s, int n) {
                               d[0x12] = byte(s.at("a"));
                               d[0x15] = byte(s.at("b"));
                               d[0x18] = byte(n);
                               d[0x20] = 0x33;
                               d[0x30] = byte(sum(d, 0x10, 0x30));
                             }};
  return session_of(machine, {{"a", {0, 255, 91, 166}}, {"b", {0, 99, 52, 201}}});
}

std::vector<std::size_t> found_in(const std::vector<Step>& steps) {
  std::vector<std::size_t> found;
  for (const Mistake& mistake : find_mistakes(steps)) found.push_back(mistake.step);
  return found;
}

}  // namespace

TEST_CASE("a session without a slip has no mistakes") {
  CHECK(found_in(session()).empty());
}

TEST_CASE("a blank dump is named") {
  auto steps = session();
  for (unsigned at = 0x0E; at < 0x40; ++at) steps[5].image.set(static_cast<Address>(at), 0xFF);
  CHECK(found_in(steps) == std::vector<std::size_t>{5});
  CHECK(find_mistakes(steps)[0].text.find("dump5 (a=91) is blank") == 0);
}

TEST_CASE("a dump that was taken before the setting was saved is named") {
  auto steps = session();
  steps[9].image = steps[8].image;  // still 255, when it says 91
  CHECK(found_in(steps) == std::vector<std::size_t>{9});
}

TEST_CASE("a damaged dump is named, idle or not") {
  auto steps = session();
  steps[13].image.set(0x20, 0xB3);
  CHECK(found_in(steps) == std::vector<std::size_t>{13});
  steps = session();
  steps[1].image.set(0x20, 0xB3);
  CHECK(found_in(steps) == std::vector<std::size_t>{1});
}

TEST_CASE("a dump with the label of another setting is named") {
  auto steps = session();
  steps[10].image = steps[13].image;  // says a=166 and shows b=52
  CHECK(found_in(steps) == std::vector<std::size_t>{10});
}

TEST_CASE("two exchanged dumps are both named") {
  auto steps = session();
  std::swap(steps[9].image, steps[18].image);  // a=91 and b=201
  auto found = found_in(steps);
  std::sort(found.begin(), found.end());
  CHECK(found == std::vector<std::size_t>{9, 18});
}

TEST_CASE("the high byte of a counter that moves on once makes no dump a mistake") {
  for (const int moves_at : {1, 2, 8, 12, 13, 18}) {
    auto steps = session();
    for (std::size_t i = 0; i < steps.size(); ++i)
      steps[i].image.set(0x19, static_cast<int>(i) < moves_at ? 0x41 : 0x42);
    INFO("moves at dump " << moves_at);
    CHECK(found_in(steps).empty());
  }
}

TEST_CASE("the last dump is named when it differs in several bytes") {
  auto steps = session();
  steps.back().image.set(0x20, 0xB3);
  steps.back().image.set(0x22, 0x04);
  CHECK(found_in(steps) == std::vector<std::size_t>{18});
}

TEST_CASE("a bad dump costs no more than itself") {
  auto steps = session();
  steps[13].image.set(0x20, 0xB3);
  const Trace found = trace(steps, {}, {});
  REQUIRE(found.mistakes.size() == 1);
  CHECK(found.contradictions.empty());
  REQUIRE(found.fields.size() == 2);
  CHECK(found.fields[0].values.size() == 4);
  CHECK(found.fields[1].values.size() == 4);
  CHECK(found.restless == Addresses{0x18});
}
