// One bad dump among good ones, with no session to judge it by.

#include "discover/odd_dump.h"

#include <catch2/catch.hpp>

#include "discover/small_machine.h"
#include "discover/trace.h"

using namespace rtcmend;
using namespace rtcmend::test;
using Bytes = SmallMachine::Bytes;
using Settings = SmallMachine::Settings;

namespace {

const SmallMachine machine{64, [](Bytes& d, const Settings& s, int) {
                             d[0x12] = byte(s.at("a"));
                             d[0x15] = byte(s.at("b"));
                             d[0x1B] = byte(s.at("c"));
                             d[0x14] = 0x33;
                             d[0x30] = byte(sum(d, 0x10, 0x30));
                           }};

std::vector<Image> nine_dumps() {
  const int values[][3] = {{7, 20, 9},    {250, 14, 33},  {99, 77, 200},
                           {3, 240, 5},   {180, 66, 149}, {41, 133, 222},
                           {222, 9, 111}, {64, 190, 18},  {17, 52, 250}};
  std::vector<Image> dumps;
  for (const auto& [a, b, c] : values)
    dumps.push_back(machine.dump({{"a", a}, {"b", b}, {"c", c}}, static_cast<int>(dumps.size())));
  return dumps;
}

}  // namespace

TEST_CASE("no good dump is left out") {
  const Solution solution = solve(nine_dumps(), {});
  CHECK_FALSE(solution.odd);
  CHECK(solution.decided());
}

TEST_CASE("a dump whose check byte is damaged is named, and the check found in the others") {
  auto dumps = nine_dumps();
  dumps[4].set(0x30, 0x5E);
  const Solution solution = solve(dumps, {});
  REQUIRE(solution.odd);
  CHECK(solution.odd->dump == 4);
  CHECK(solution.odd->alone.empty());
  CHECK(solution.decided());
  CHECK(solution.models.front().check.stored_at == 0x30);
}

TEST_CASE("a dump that alone shows another byte may be right: nothing is decided") {
  auto dumps = nine_dumps();
  dumps[4].set(0x14, 0x34);
  const Solution solution = solve(dumps, {});
  REQUIRE(solution.odd);
  CHECK(solution.odd->dump == 4);
  CHECK(solution.odd->alone == Addresses{0x14});
  CHECK_FALSE(solution.decided());
}

TEST_CASE("two bad dumps are not named") {
  auto dumps = nine_dumps();
  dumps[4].set(0x30, 0x5E);
  dumps[7].set(0x30, 0x5E);
  CHECK_FALSE(solve(dumps, {}).odd);
}
