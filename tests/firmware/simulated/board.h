#pragma once

#include <cstdint>
#include <deque>
#include <memory>
#include <string>
#include <string_view>

#include "bench.h"

struct avr_t;

namespace rtcmend::test {

/// The firmware in a simulated ATmega328P (libsimavr), with the bench at its pins, in lock-step:
/// nothing happens but by run().
class SimulatedBoard {
 public:
  /// The firmware as Intel HEX; the bench outlives the board.
  SimulatedBoard(const std::string& hex_file, Bench& bench);
  ~SimulatedBoard();
  SimulatedBoard(const SimulatedBoard&) = delete;
  SimulatedBoard& operator=(const SimulatedBoard&) = delete;

  /// Clocks since the beginning of the first board on this bench.
  std::uint64_t now() const;
  void run(std::uint64_t clocks);
  void run_milliseconds(double milliseconds) {
    run(static_cast<std::uint64_t>(milliseconds * clocks_per_second / 1000));
  }
  /// Characters to the board, one after the other at the speed of the wire.
  void send(std::string_view characters);
  /// What it has sent since the last time.
  std::string take();
  /// As its reset line does.
  void reset();

 private:
  struct Hooks;
  void start();
  void feed();

  std::string hex_file_;
  Bench& bench_;
  std::unique_ptr<Hooks> hooks_;
  avr_t* avr_ = nullptr;
  std::uint64_t before_ = 0;  ///< clocks of earlier lives
  std::uint64_t next_feed_ = 0;
  std::deque<char> to_board_;
  std::string from_board_;
};

}  // namespace rtcmend::test
