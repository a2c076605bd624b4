#include <catch2/catch.hpp>

#include "base/error.h"
#include "deliver/delivery.h"

namespace rtcmend::test {

// docs/figures.md prints these; whoever changes a program counts again there.
TEST_CASE("the ways are as large as the documentation says") {
  const auto figures = way_figures();
  REQUIRE(figures.size() == 5);
  CHECK(figures[0].bytes == 1474560);
  CHECK(figures[1].bytes == 8149);
  CHECK(figures[2].bytes == 541);
  CHECK(figures[2].keystrokes == 531);
  CHECK(figures[3].bytes == 5649);
  CHECK(figures[3].keystrokes == 5555);
  CHECK(figures[4].bytes == 540);
  CHECK(figures[4].keystrokes == 525);
  CHECK(figures[4].keystrokes <= 700);
  CHECK(figures[2].keystrokes <= 11 * 50);
}

TEST_CASE("no way needs fewer keys than the least that is claimed for it") {
  for (const WayFigures& way : way_figures()) CHECK(way.keystrokes >= way.least);
}

TEST_CASE("names of ways, policies and formats are read and refused") {
  CHECK(way_named("basic-listing") == Way::basic_listing);
  CHECK(name(Way::debugger_script) == "debugger-script");
  CHECK(clock_policy_named("ask") == ClockPolicy::ask);
  CHECK(disk_format_named("720K") == DiskFormat::k720);
  CHECK_THROWS_AS(way_named("floppy"), Error);
  CHECK_THROWS_AS(clock_policy_named("Keep"), Error);
  CHECK_THROWS_AS(disk_format_named("2.88M"), Error);
}

}  // namespace rtcmend::test
