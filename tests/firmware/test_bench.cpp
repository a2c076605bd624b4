#include "test_bench.h"

#include <random>

#include "base/error.h"

namespace rtcmend::test {

std::vector<std::uint8_t> random_bytes(std::size_t count, unsigned seed) {
  std::mt19937 random(seed);
  std::vector<std::uint8_t> bytes(count);
  for (auto& byte : bytes) byte = static_cast<std::uint8_t>(random());
  return bytes;
}

void TestBench::fill(unsigned seed) {
  const auto bytes = random_bytes(bench.chip.size(), seed);
  for (std::size_t at = Image::ram_start; at < bytes.size(); ++at)
    bench.chip.put(static_cast<std::uint8_t>(at), bytes[at]);
}

std::vector<std::uint8_t> TestBench::ram() {
  const auto bytes = bench.chip.bytes(board.now());
  return {bytes.begin() + Image::ram_start, bytes.end()};
}

std::vector<std::uint8_t> TestBench::ram_of(const Image& image) {
  const auto bytes = image.bytes();
  return {bytes.begin() + Image::ram_start, bytes.end()};
}

ChipRead TestBench::read(std::optional<std::size_t> size) {
  ChipRead read;
  exchange.run([&](Talk& talk) { read = read_chip(talk, size); });
  return read;
}

void TestBench::switch_off() {
  exchange.run([](Talk& talk) { rtcmend::switch_off(talk); });
}

const std::vector<std::string>& TestBench::violations() {
  bench.finish(board.now());
  return bench.violations();
}

std::string TestBench::refusal() {
  try {
    read();
  } catch (const Error& error) {
    return error.message();
  }
  return {};
}

}  // namespace rtcmend::test
