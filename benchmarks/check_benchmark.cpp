// The check engine: CRC-16 against Boost.CRC's optimal type and against one bit at a time; all
// checks of the library in one pass against one evaluation each.

#include <benchmark/benchmark.h>
#include <boost/crc.hpp>
#include <random>
#include <vector>

#include "check/crc.h"
#include "check/sweep.h"
#include "layout/library.h"

namespace {

using namespace rtcmend;

std::vector<std::uint8_t> random_bytes(std::size_t count) {
  std::mt19937 random(7);
  std::vector<std::uint8_t> bytes(count);
  for (std::uint8_t& byte : bytes) byte = static_cast<std::uint8_t>(random());
  return bytes;
}

void crc_here(benchmark::State& state) {
  auto bytes = random_bytes(static_cast<std::size_t>(state.range(0)));
  const Crc crc(crc_models::ibm_3740);
  for (auto _ : state) {
    benchmark::DoNotOptimize(bytes.data());
    benchmark::DoNotOptimize(crc(bytes));
  }
}

void crc_boost(benchmark::State& state) {
  auto bytes = random_bytes(static_cast<std::size_t>(state.range(0)));
  for (auto _ : state) {
    benchmark::DoNotOptimize(bytes.data());
    boost::crc_optimal<16, 0x1021, 0xFFFF, 0, false, false> crc;
    crc.process_bytes(bytes.data(), bytes.size());
    benchmark::DoNotOptimize(crc.checksum());
  }
}

void crc_bit_by_bit(benchmark::State& state) {
  auto bytes = random_bytes(static_cast<std::size_t>(state.range(0)));
  for (auto _ : state) {
    benchmark::DoNotOptimize(bytes.data());
    benchmark::DoNotOptimize(crc_bitwise(crc_models::ibm_3740, bytes));
  }
}

// The covered bytes of the built-in CRC layouts, and ten times and a hundred times as many.
BENCHMARK(crc_here)->Arg(34)->Arg(58)->Arg(340)->Arg(3400);
BENCHMARK(crc_boost)->Arg(34)->Arg(58)->Arg(340)->Arg(3400);
BENCHMARK(crc_bit_by_bit)->Arg(34)->Arg(58)->Arg(340)->Arg(3400);

std::vector<const Check*> checks_of(std::size_t size) {
  std::vector<const Check*> checks;
  for (const Layout& layout : built_in_checks(Image::large_size))
    if (layout.size == size)
      for (const Check& check : layout.checks) checks.push_back(&check);
  return checks;
}

void checks_in_one_pass(benchmark::State& state) {
  const auto size = static_cast<std::size_t>(state.range(0));
  const Image image(random_bytes(size));
  Sweep sweep(checks_of(size));
  for (auto _ : state) benchmark::DoNotOptimize(sweep(image).data());
}

void checks_one_by_one(benchmark::State& state) {
  const auto size = static_cast<std::size_t>(state.range(0));
  const Image image(random_bytes(size));
  const auto checks = checks_of(size);
  for (auto _ : state)
    for (const Check* check : checks) benchmark::DoNotOptimize(evaluate(*check, image));
}

BENCHMARK(checks_in_one_pass)->Arg(64)->Arg(128);
BENCHMARK(checks_one_by_one)->Arg(64)->Arg(128);

}  // namespace

BENCHMARK_MAIN();
