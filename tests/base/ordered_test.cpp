#include "base/ordered.h"

#include <atomic>
#include <catch2/catch.hpp>
#include <stdexcept>
#include <string>

using namespace rtcmend;

namespace {

using Doubling = Ordered<int, int>;

/// 0, 1, 2 ... up to `count`.
std::function<std::optional<int>()> numbers(int count) {
  return [count, at = 0]() mutable -> std::optional<int> {
    if (at == count) return std::nullopt;
    return at++;
  };
}

/// The first tasks take longest, so that later ones overtake them.
int slowly_doubled(int number) {
  if (number % 8 == 0) std::this_thread::sleep_for(std::chrono::milliseconds(2));
  return number * 2;
}

}  // namespace

TEST_CASE("results come in the order of the tasks, whatever the number of threads", "[threads]") {
  for (const unsigned jobs : {1U, 2U, 5U}) {
    INFO(jobs);
    std::vector<int> results;
    Doubling::run(jobs, {numbers(100), [] { return slowly_doubled; },
                         [&](int result) { results.push_back(result); }});
    REQUIRE(results.size() == 100);
    for (int i = 0; i < 100; ++i) CHECK(results[static_cast<std::size_t>(i)] == 2 * i);
  }
}

TEST_CASE("no more than four tasks a thread are under way at once", "[threads]") {
  int given = 0, taken = 0, most = 0;
  const auto next = [&]() -> std::optional<int> {
    if (given == 60) return std::nullopt;
    most = std::max(most, given - taken);
    return given++;
  };
  Doubling::run(2, {next, [] { return slowly_doubled; }, [&](int) { ++taken; }});
  CHECK(taken == 60);
  CHECK(most <= 8);
}

TEST_CASE("each thread makes a worker of its own", "[threads]") {
  for (const unsigned jobs : {1U, 3U}) {
    std::atomic<unsigned> made = 0;
    const auto make_worker = [&]() -> Doubling::Worker {
      ++made;
      return slowly_doubled;
    };
    int taken = 0;
    Doubling::run(jobs, {numbers(20), make_worker, [&](int) { ++taken; }});
    CHECK(taken == 20);
    CHECK(made == jobs);
  }
}

TEST_CASE("what a worker throws ends the work and reaches the caller", "[threads]") {
  for (const unsigned jobs : {1U, 3U}) {
    const auto fails_at_ten = [](int number) {
      if (number == 10) throw std::runtime_error("ten");
      return number;
    };
    int taken = 0;
    CHECK_THROWS_WITH(
        Doubling::run(jobs, {numbers(1000), [&] { return fails_at_ten; }, [&](int) { ++taken; }}),
        "ten");
    CHECK(taken == 10);
  }
}
