#include "cli/patience.h"

#include <algorithm>
#include <csignal>
#include <fmt/format.h>

#include "base/system.h"
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
    : start_(std::chrono::steady_clock::now()), on_terminal_(system::errors_are_terminal()) {
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

bool Patience::has_waited() const {
  return on_terminal_ && std::chrono::steady_clock::now() - start_ >= quiet_time;
}

void Patience::show_text(std::string_view text) {
  shown_ = true;
  print_aside(fmt::format("\r{} (Ctrl-C stops)", text));
}

void Patience::show(double part) {
  if (has_waited()) show_text(fmt::format("searching: {:3.0f}%", 100 * part));
}

void Patience::part(std::string_view doing, double done) {
  if (has_waited()) show_text(fmt::format("{}: {:3.0f}%", doing, 100 * std::min(1.0, done)));
}

void Patience::count(std::size_t done) {
  // Lines that go to the same terminal are progress enough.
  if (has_waited() && !system::output_is_terminal()) show_text(fmt::format("judged: {}", done));
}

}  // namespace rtcmend
