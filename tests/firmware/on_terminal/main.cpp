// A simulated board and chip at the far end of a pseudo-terminal, in real time, for the real
// program. on_terminal FIRMWARE [dead|weak|stopped]: prints the terminal's name, and runs until its
// input ends. At the end it says on standard error what was out of order on the bus, and ends
// with 1.
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fcntl.h>
#include <poll.h>
#include <random>
#include <string>
#include <termios.h>
#include <unistd.h>

#include "simulated/board.h"

using namespace rtcmend::test;

namespace {

ClockChipTraits traits_of(const std::string& word) {
  ClockChipTraits traits;
  if (word == "dead") traits.cell = Cell::dead;
  if (word == "weak") traits.cell = Cell::weak_bits;
  if (word == "stopped") traits.oscillator_dead = true;
  return traits;
}

/// The outer end of a raw pseudo-terminal; the inner one stays open, so that nothing hangs up.
int open_terminal() {
  const int outside = posix_openpt(O_RDWR | O_NOCTTY | O_NONBLOCK);
  if (outside < 0 || grantpt(outside) != 0 || unlockpt(outside) != 0) std::exit(1);
  const int inside = open(ptsname(outside), O_RDWR | O_NOCTTY);
  termios how{};
  tcgetattr(inside, &how);
  cfmakeraw(&how);
  tcsetattr(inside, TCSANOW, &how);
  std::printf("%s\n", ptsname(outside));
  std::fflush(stdout);
  return outside;
}

bool input_ended() {
  pollfd waiting{0, POLLIN, 0};
  char byte = 0;
  return poll(&waiting, 1, 0) > 0 && read(0, &byte, 1) <= 0;
}

}  // namespace

int main(int count, char** words) {
  if (count < 2) return 2;
  Bench bench(traits_of(count > 2 ? words[2] : ""));
  std::mt19937 random(1);
  for (std::size_t at = 14; at < bench.chip.size(); ++at)
    bench.chip.put(static_cast<std::uint8_t>(at), static_cast<std::uint8_t>(random()));
  SimulatedBoard board(words[1], bench);
  const int terminal = open_terminal();
  const auto begun = std::chrono::steady_clock::now();
  while (!input_ended()) {
    const auto gone = std::chrono::steady_clock::now() - begun;
    const auto due = static_cast<std::uint64_t>(
        std::chrono::duration_cast<std::chrono::microseconds>(gone).count() * 16);
    if (due > board.now()) board.run(due - board.now());
    char bytes[256];
    if (const auto got = read(terminal, bytes, sizeof bytes); got > 0)
      board.send({bytes, static_cast<std::size_t>(got)});
    if (const std::string out = board.take(); !out.empty())
      if (write(terminal, out.data(), out.size()) < 0) return 1;
    usleep(1000);
  }
  bench.finish(board.now());
  for (const std::string& violation : bench.violations())
    std::fprintf(stderr, "%s\n", violation.c_str());
  if (bench.has_supply()) std::fprintf(stderr, "the chip was left under power\n");
  return bench.violations().empty() && !bench.has_supply() ? 0 : 1;
}
