// What taking the supply away shows, by the words of upkeep/retention.h; and how well a clock keeps
// time.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fmt/format.h>
#include <random>

#include "base/error.h"
#include "board/rate.h"
#include "layout/library.h"
#include "support/sound_images.h"
#include "test_bench.h"
#include "upkeep/retention.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

constexpr int seconds_off = 90;  // the weak places of the simulated chip take a minute

Retention held(const ClockChipTraits& traits, int seconds = seconds_off) {
  TestBench bench(traits);
  ChipRead before = bench.read();
  Image wanted = at_64_image();
  bench.exchange.run([&](Talk& talk) {
    const WallClock wall = [](Moment at) { return 1'600'000'000'000'000 + at.count(); };
    before = write_chip(talk, {wanted, wall}, before);
  });
  ChipRead after, again;
  bench.exchange.run([&](Talk& talk) { after = rest_chip(talk, seconds, before.image.size()); });
  bench.exchange.run([&](Talk& talk) { again = read_chip(talk, before.image.size()); });
  bench.switch_off();
  CHECK(bench.violations().empty());
  Layout layout = built_in_layout("at");
  layout.size = before.image.size();  // no firmware writes here: every byte has to be kept
  return retention({before.image, after.image, again.image, seconds, bench_slack}, layout);
}

}  // namespace

TEST_CASE("a sound chip holds", "[long]") {
  CHECK(held({}).what == Retained::everything);
}

TEST_CASE("a dead cell is known by everything being lost", "[long]") {
  ClockChipTraits traits;
  traits.cell = Cell::dead;
  const Retention found = held(traits);
  CHECK(found.what == Retained::nothing);
  CHECK(found.cell_low);
}

TEST_CASE("weak places are named by their bits", "[long]") {
  ClockChipTraits traits;
  traits.cell = Cell::weak_bits;
  const Retention found = held(traits);
  CHECK(found.what == Retained::a_few_bits_lost);
  REQUIRE(found.bits.size() == 2);
  CHECK(found.bits[0].at == 0x15);
  CHECK(found.bits[0].bit == 4);
  CHECK(found.bits[1].at == 0x22);
  CHECK(found.bits[1].bit == 0);
}

TEST_CASE("an oscillator that stops without power costs the clock and nothing else", "[long]") {
  ClockChipTraits traits;
  traits.oscillator_stops_off = true;
  const Retention found = held(traits);
  CHECK(found.what == Retained::clock_lost);
  CHECK(found.clock == ClockKept::stood_still);
}

TEST_CASE("of a time too short to tell nothing is said of the clock") {
  for (const bool stands : {false, true}) {
    ClockChipTraits traits;
    traits.oscillator_dead = stands;
    const Retention found = held(traits, 2);
    CHECK(found.what == Retained::everything);
    CHECK(found.clock == (stands ? ClockKept::unknown : ClockKept::kept));
  }
}

TEST_CASE("an oscillator that never runs is told as a clock that stood still", "[long]") {
  ClockChipTraits traits;
  traits.oscillator_dead = true;
  const Retention found = held(traits);
  CHECK(found.what == Retained::clock_lost);
  CHECK(found.clock == ClockKept::stood_still);
}

namespace {

double measured(double ppm, double minutes, unsigned seed) {
  ClockChipTraits traits;
  traits.ppm = ppm;
  TestBench bench(traits);
  std::mt19937 random(seed);
  std::uniform_int_distribution<int> late(0, 1000);
  bench.exchange.delay = [&] { return late(random); };
  std::vector<ClockEdge> edges;
  bench.exchange.run([&](Talk& talk) {
    read_chip(talk, {});
    edges = watch_clock(talk, Moment{static_cast<long long>(minutes * 60e6)});
  });
  CHECK(bench.violations().empty());
  const auto rate = clock_rate(edges);
  REQUIRE(rate);
  return rate->ppm;
}

}  // namespace

TEST_CASE("a clock that loses 140 ppm is found within 1 ppm in five minutes, with 1 ms of jitter",
          "[long][count]") {
  CHECK(std::abs(measured(-140, 5, 1) + 140) < 1);
}

TEST_CASE("a clock that gains 23 ppm is found within 1 ppm in five minutes, with 1 ms of jitter",
          "[long][count]") {
  CHECK(std::abs(measured(23, 5, 3) - 23) < 1);
}

TEST_CASE(
    "a clock that is right is found right within 1 ppm, from five minutes with 1 ms of jitter",
    "[long][count]") {
  CHECK(std::abs(measured(0, 5, 2)) < 1);
}

TEST_CASE("the worst of five runs at each rate", "[.figures]") {
  for (const double ppm : {0.0, 23.0, -140.0}) {
    double worst = 0;
    for (unsigned seed = 1; seed <= 5; ++seed)
      worst = std::max(worst, std::abs(measured(ppm, 5, seed) - ppm));
    CHECK(worst < 1);
    WARN(fmt::format("{:+.0f} ppm, five minutes with 1 ms of jitter: at most {:.2f} ppm beside it",
                     ppm, worst));
  }
}
