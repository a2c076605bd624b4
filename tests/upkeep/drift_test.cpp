#include "upkeep/drift.h"

#include <catch2/catch.hpp>

#include "base/error.h"

using namespace rtcmend;

namespace {

ClockSample sample(const char* shown, const char* reference) {
  return {parse_iso(shown).value(), parse_iso(reference).value(), false, true};
}

std::vector<ClockEvent> events(std::vector<ClockSample> samples) {
  return drift(std::move(samples)).events;
}

}  // namespace

TEST_CASE("a minute ahead after thirty days is 23.1 ppm, just what a module may do") {
  // DS12885: plus or minus one minute a month at 25 C.
  const Drift found = drift({sample("2031-05-01T12:00:00", "2031-05-01T12:00:00"),
                             sample("2031-05-31T12:01:00", "2031-05-31T12:00:00")});
  REQUIRE(found.ppm);
  CHECK(*found.ppm == Approx(23.1).margin(0.06));
  CHECK(found.seconds_per_month == Approx(60));
  CHECK(found.seconds_per_day == Approx(2));
  // Two seconds over 2,592,000.
  CHECK(found.ppm_uncertainty == Approx(0.77).margin(0.01));
  CHECK(found.tells_something);
  CHECK(found.events.empty());
}

TEST_CASE("two readings an hour apart tell nothing") {
  const Drift found = drift({sample("2031-05-01T12:00:00", "2031-05-01T12:00:00"),
                             sample("2031-05-01T13:00:01", "2031-05-01T13:00:00")});
  CHECK_FALSE(found.tells_something);
  CHECK(found.ppm_uncertainty == Approx(555.6).margin(0.1));
  CHECK(days_needed(23.148) == Approx(1.0).margin(0.01));
}

TEST_CASE("many readings narrow the uncertainty") {
  std::vector<ClockSample> samples;
  for (int day = 1; day <= 28; ++day) {
    DateTime at{2031, 2, day, 12, 0, 0};
    samples.push_back({at, at, false, true});
  }
  const Drift found = drift(samples);
  CHECK(*found.ppm == Approx(0).margin(1e-9));
  CHECK(found.ppm_uncertainty < 0.3);
}

TEST_CASE("what is no drift is told apart and taken out") {
  SECTION("a stopped clock") {
    const Drift found = drift({sample("2031-05-01T12:00:00", "2031-05-01T12:00:00"),
                               sample("2031-05-01T12:00:00", "2031-05-08T12:00:00")});
    REQUIRE(found.events.size() == 1);
    CHECK(found.events[0].kind == ClockEvent::Kind::stopped);
    CHECK_FALSE(found.ppm);
  }
  SECTION("a reset") {
    const auto seen = events({sample("2031-05-01T12:00:00", "2031-05-01T12:00:00"),
                              sample("1980-01-02T07:00:00", "2031-05-08T12:00:00")});
    REQUIRE(seen.size() == 1);
    CHECK(seen[0].kind == ClockEvent::Kind::reset);
  }
  SECTION("a missing leap day") {
    const Drift found = drift({sample("2028-02-20T12:00:00", "2028-02-20T12:00:00"),
                               sample("2028-03-21T12:00:30", "2028-03-20T12:00:00")});
    REQUIRE(found.events.size() == 1);
    CHECK(found.events[0].kind == ClockEvent::Kind::month_length);
    // 30 s over the 29 days that passed.
    CHECK(found.seconds_per_month == Approx(31.03).margin(0.01));
  }
  SECTION("a century slip") {
    const auto seen =
        events({sample("1999-12-20T12:00:00", "1999-12-20T12:00:00"),
                {DateTime{1900, 1, 10, 12, 0, 0}, DateTime{2000, 1, 10, 12, 0, 0}, false, true}});
    REQUIRE(seen.size() == 1);
    CHECK(seen[0].kind == ClockEvent::Kind::century);
  }
  SECTION("the daylight-saving hour, only where DSE is on") {
    // Sunday 6 April 2031 is the first of that month.
    auto before = sample("2031-04-01T12:00:00", "2031-04-01T12:00:00");
    auto after = sample("2031-04-10T13:00:00", "2031-04-10T12:00:00");
    CHECK(events({before, after}).at(0).kind == ClockEvent::Kind::jump);
    after.daylight_saving = true;
    CHECK(events({before, after}).at(0).kind == ClockEvent::Kind::daylight_saving);
  }
}

TEST_CASE("one reading, or two at one moment, are refused") {
  const auto one = sample("2031-05-01T12:00:00", "2031-05-01T12:00:00");
  CHECK_THROWS_AS(drift({one}), Error);
  CHECK_THROWS_AS(drift({one, one}), Error);
}
