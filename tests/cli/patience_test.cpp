#include "cli/patience.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <csignal>
#include <fcntl.h>
#include <thread>
#include <unistd.h>

#include "support/pseudo_terminal.h"

using namespace rtcmend;

TEST_CASE("Ctrl-C asks a search to stop instead of ending the program") {
  Patience patience;
  const Watch watch = patience.watch();
  CHECK_FALSE(watch.stopped());
  REQUIRE(std::raise(SIGINT) == 0);
  CHECK(watch.stopped());
}

TEST_CASE("a second Ctrl-C ends the program as usual, and so does one after the search") {
  using Handler = void (*)(int);
  const Handler before = std::signal(SIGINT, SIG_IGN);
  {
    Patience patience;
    std::raise(SIGINT);
    CHECK(std::signal(SIGINT, SIG_IGN) == SIG_DFL);
  }
  CHECK(std::signal(SIGINT, before) == SIG_IGN);
}

TEST_CASE("a new search starts without the stop of the one before") {
  {
    Patience first;
    std::raise(SIGINT);
  }
  Patience second;
  CHECK_FALSE(second.watch().stopped());
}

namespace {

/// While it lives, what goes to a descriptor goes to another one.
class Diverted {
 public:
  Diverted(int number, int to) : number_(number), before_(::dup(number)) { ::dup2(to, number); }
  Diverted(const Diverted&) = delete;
  Diverted& operator=(const Diverted&) = delete;
  ~Diverted() {
    ::dup2(before_, number_);
    ::close(before_);
  }

 private:
  int number_, before_;
};

}  // namespace

TEST_CASE("a terminal is told after half a second how far a search is, and its line cleared",
          "[long]") {
  const test::PseudoTerminal terminal;
  const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
  std::string early, searching, judged, judged_in_view, cleared;
  {
    const Diverted errors(STDERR_FILENO, terminal.descriptor());
    {
      Patience patience;
      const Watch watch = patience.watch();
      watch.progress(0.1);
      early = terminal.written();
      std::this_thread::sleep_for(std::chrono::milliseconds(510));
      watch.progress(0.42);
      searching = terminal.written();
      {
        const Diverted output(STDOUT_FILENO, nowhere);
        patience.count(1234);
        judged = terminal.written();
      }
      const Diverted output(STDOUT_FILENO, terminal.descriptor());
      patience.count(5678);
      judged_in_view = terminal.written();
    }
    cleared = terminal.written();
  }
  ::close(nowhere);
  CHECK(early.empty());
  CHECK(searching == "\rsearching:  42% (Ctrl-C stops)");
  CHECK(judged == "\rjudged: 1234 (Ctrl-C stops)");
  CHECK(judged_in_view.empty());
  CHECK(cleared == "\r" + std::string(32, ' ') + "\r");
}
