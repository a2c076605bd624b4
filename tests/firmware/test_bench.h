#pragma once

#include <vector>

#include "board/work.h"
#include "simulated/exchange.h"

namespace rtcmend::test {

std::vector<std::uint8_t> random_bytes(std::size_t count, unsigned seed);

/// Chip, wires, board and program's side of it, at hand for a test.
struct TestBench {
  explicit TestBench(const ClockChipTraits& chip = {}, const BenchFaults& wrong = {},
                     const WireFaults& wire = {}, const std::string& firmware = RTCMEND_FIRMWARE)
      : bench(chip, wrong), board(firmware, bench), exchange(board, wire) {}

  /// Random RAM into the chip; its clock stays.
  void fill(unsigned seed);
  /// What is in the chip's RAM.
  std::vector<std::uint8_t> ram();
  static std::vector<std::uint8_t> ram_of(const Image& image);
  ChipRead read(std::optional<std::size_t> size = {});
  void switch_off();
  /// Also of what time alone shows.
  const std::vector<std::string>& violations();
  /// The message of the refusal that reading ends in; empty when it does not.
  std::string refusal();

  Bench bench;
  SimulatedBoard board;
  Exchange exchange;
};

}  // namespace rtcmend::test
