#include "cli/patience.h"

#include <csignal>
#include <fmt/format.h>
#include <unistd.h>

#include "cli/print.h"

namespace rtcmend {

namespace {

constexpr std::chrono::milliseconds quiet_time{500};

// A signal handler reaches nothing but a static flag; nobody else writes to it.
std::atomic<bool> interrupted = false;
static_assert(std::atomic<bool>::is_always_lock_free, "a signal handler may not wait for a lock");

extern "C" void note_interrupt(int) {
  interrupted = true;
  std::signal(SIGINT, SIG_DFL);
}

}  // namespace

Patience::Patience()
    : start_(std::chrono::steady_clock::now()), on_terminal_(isatty(STDERR_FILENO) == 1) {
  interrupted = false;
  previous_ = std::signal(SIGINT, note_interrupt);
}

Patience::~Patience() {
  if (shown_) print_aside("\r                                \r");
  std::signal(SIGINT, previous_);
}

Watch Patience::watch() {
  return {[this](double part) { show(part); }, &interrupted};
}

void Patience::show(double part) {
  if (!on_terminal_ || std::chrono::steady_clock::now() - start_ < quiet_time) return;
  shown_ = true;
  print_aside(fmt::format("\rsearching: {:3.0f}% (Ctrl-C stops)", 100 * part));
}

}  // namespace rtcmend
