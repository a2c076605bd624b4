#include "cli/patience.h"

#include <catch2/catch.hpp>
#include <csignal>

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
