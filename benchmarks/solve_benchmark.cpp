// How fast the whole CRC-16 space is searched, and how many times faster than the plain search of
// the tests, which is timed on a slice of the same space in the same run.

#include <algorithm>
#include <benchmark/benchmark.h>
#include <ctime>
#include <map>

#include "discover/plain_search.h"
#include "discover/random_dumps.h"
#include "discover/search.h"

namespace {

using namespace rtcmend;
using namespace rtcmend::test;

constexpr double all_polynomials = 32768;
constexpr unsigned polynomials_in_slice = 8;

double cpu_seconds() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

// Equal but for `changes` bytes, any of which takes any value.
std::vector<DumpSet::Bytes> dumps_that_differ(std::size_t count, std::size_t size,
                                              std::size_t changes) {
  Dice dice(static_cast<std::uint32_t>(1000 * size + 10 * changes + count));
  std::vector<DumpSet::Bytes> dumps(count, random_dumps(dice, 1, size)[0]);
  std::vector<std::size_t> places(size);
  for (std::size_t i = 0; i < size; ++i) places[i] = i;
  for (std::size_t i = 0; i < std::min(changes, size); ++i) {
    std::swap(places[i], places[i + dice.below(static_cast<std::uint32_t>(size - i))]);
    for (std::size_t d = 1; d < count; ++d) dumps[d][places[i]] = dice.byte();
  }
  return dumps;
}

// Seconds that the plain search would take for the whole space.
double plain_seconds(const std::vector<DumpSet::Bytes>& dumps) {
  const Polynomials slice{0x8001, 0x8001 + 2 * (polynomials_in_slice - 1)};
  const double start = cpu_seconds();
  benchmark::DoNotOptimize(plain_crc_search(dumps, {}, 16, slice));
  return (cpu_seconds() - start) * all_polynomials / polynomials_in_slice;
}

void search_whole_space(benchmark::State& state) {
  const auto size = static_cast<std::size_t>(state.range(0));
  const auto changes = static_cast<std::size_t>(state.range(1));
  const auto dumps = dumps_that_differ(static_cast<std::size_t>(state.range(2)), size, changes);
  double seconds = 0;
  for (auto _ : state) {
    const double start = cpu_seconds();
    const DumpSet evidence = gather_evidence(dumps, {});
    benchmark::DoNotOptimize(search_crcs(evidence, {}, 16, {}, {}));
    seconds += cpu_seconds() - start;
  }
  seconds /= static_cast<double>(state.iterations());
  const double plain = plain_seconds(dumps);
  state.counters["plain_s"] = plain;
  state.counters["times_faster"] = plain / seconds;
}

// Size, bytes that differ, dumps: the typical case and how it grows, then the worst one.
BENCHMARK(search_whole_space)
    ->ArgNames({"bytes", "differ", "dumps"})
    ->Args({32, 16, 3})
    ->Args({64, 16, 3})
    ->Args({128, 16, 3})
    ->Args({128, 16, 4})
    ->Args({128, 16, 6})
    ->Args({32, 32, 3})
    ->Args({64, 64, 3})
    ->Args({128, 128, 3})
    ->Args({128, 128, 4})
    ->Args({128, 128, 6})
    ->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
