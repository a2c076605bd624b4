#include "board/rate.h"

#include <catch2/catch.hpp>
#include <random>

using namespace rtcmend;

namespace {

/// Ends of seconds of a clock that is off by so much, each seen up to `jitter` microseconds late,
/// every `lost`th not at all.
std::vector<ClockEdge> edges_of(double ppm, int seconds, int jitter, int lost, unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_int_distribution<int> late(0, jitter);
  std::vector<ClockEdge> edges;
  for (int i = 0; i <= seconds; ++i)
    if (i % lost != 1)
      edges.push_back(
          {Moment{static_cast<long long>(i * 1e6 / (1 + ppm * 1e-6)) + late(random)}, 0});
  return edges;
}

}  // namespace

TEST_CASE(
    "rates of 0, 23 and -140 ppm are found within 1 ppm in five minutes with 1 ms of jitter") {
  for (const double ppm : {0.0, 23.0, -140.0}) {
    for (unsigned seed = 0; seed < 100; ++seed) {
      const auto rate = clock_rate(edges_of(ppm, 300, 1000, 500, seed));
      REQUIRE(rate);
      CHECK(std::abs(rate->ppm - ppm) < 1);
      CHECK(rate->uncertainty < 1);
    }
  }
}

TEST_CASE("ends of seconds that were not seen do not bend the rate") {
  const auto rate = clock_rate(edges_of(23, 300, 1000, 4, 1));
  REQUIRE(rate);
  CHECK(std::abs(rate->ppm - 23) < 1);
}

TEST_CASE("one end of a second that was held up for a third of a second is left out") {
  auto edges = edges_of(23, 300, 1000, 500, 1);
  edges[150].at += Moment{300'000};
  const auto rate = clock_rate(edges);
  REQUIRE(rate);
  CHECK(std::abs(rate->ppm - 23) < 1);
}

TEST_CASE("a rate is not told from nine ends of seconds") {
  CHECK_FALSE(clock_rate(edges_of(0, 8, 0, 500, 1)));
  CHECK(clock_rate(edges_of(0, 10, 0, 500, 1)));
}
