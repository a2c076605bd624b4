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

TEST_CASE("the verdict says how the rate stands against a module's minute a month") {
  const auto first = sample("2031-05-01T12:00:00", "2031-05-01T12:00:00");
  const auto verdict = [&](const char* shown, const char* reference) {
    return drift({first, sample(shown, reference)}).verdict;
  };
  CHECK(verdict("2031-05-31T12:01:00", "2031-05-31T12:00:00") == DriftVerdict::at_the_limit);
  CHECK(verdict("2031-05-31T11:59:00", "2031-05-31T12:00:00") == DriftVerdict::at_the_limit);
  CHECK(verdict("2031-05-31T12:00:30", "2031-05-31T12:00:00") == DriftVerdict::within);
  CHECK(verdict("2031-05-31T12:02:00", "2031-05-31T12:00:00") == DriftVerdict::outside);
  CHECK(verdict("2031-05-01T13:00:00", "2031-05-01T13:00:00") == DriftVerdict::too_close);
  CHECK(verdict("2031-05-01T12:00:00", "2031-05-09T12:00:00") == DriftVerdict::no_stretch);
}

TEST_CASE("three readings are fitted by least squares") {
  // By hand: offsets 0, 3, 2 s at days 0, 10, 20. Slope = (0-10)(0-5/3) + 0 + (20-10)(2-5/3) over
  // 200 days squared = 20/200 = 0.1 s a day.
  const Drift found = drift({sample("2031-05-01T12:00:00", "2031-05-01T12:00:00"),
                             sample("2031-05-11T12:00:03", "2031-05-11T12:00:00"),
                             sample("2031-05-21T12:00:02", "2031-05-21T12:00:00")});
  CHECK(found.seconds_per_day == Approx(0.1).margin(1e-6));
  CHECK(*found.ppm == Approx(1.1574).margin(0.0001));
  // Two sigma of a reading, 0.816 s, over the square root of 200 days squared: 0.0577 s a day.
  CHECK(found.ppm_uncertainty == Approx(0.668).margin(0.001));
}

TEST_CASE("readings half a year apart still show the daylight-saving hour where DSE is on") {
  auto before = sample("2031-02-01T12:00:00", "2031-02-01T12:00:00");
  auto after = sample("2031-08-01T13:00:20", "2031-08-01T12:00:00");
  after.daylight_saving = true;
  const Drift found = drift({before, after});
  REQUIRE(found.events.size() == 1);
  CHECK(found.events[0].kind == ClockEvent::Kind::daylight_saving);
  // 20 s over 181 days.
  CHECK(found.seconds_per_day == Approx(0.1105).margin(0.0001));
}

TEST_CASE("a clock that came back after years at a round date was reset") {
  const auto seen = events({sample("2031-05-01T12:00:00", "2031-05-01T12:00:00"),
                            sample("2000-01-08T00:10:00", "2031-05-08T12:00:00")});
  REQUIRE(seen.size() == 1);
  CHECK(seen[0].kind == ClockEvent::Kind::reset);
}

TEST_CASE("a clock whose registers hold it is told, however plausible its time") {
  auto held = sample("2031-05-08T12:00:00", "2031-05-08T12:00:00");
  held.running = false;
  const auto seen = events({sample("2031-05-01T12:00:00", "2031-05-01T12:00:00"), held});
  REQUIRE(seen.size() == 1);
  CHECK(seen[0].kind == ClockEvent::Kind::stopped);
  CHECK(seen[0].after == 1);
}

TEST_CASE("one reading, or two at one moment, are refused") {
  const auto one = sample("2031-05-01T12:00:00", "2031-05-01T12:00:00");
  CHECK_THROWS_AS(drift({one}), Error);
  CHECK_THROWS_AS(drift({one, one}), Error);
}

TEST_CASE("the autumn hour is told where DSE is on, and no hour where no change lies between") {
  // Sunday 26 October 2031 is the last of that month (DS12885's rule).
  auto before = sample("2031-10-20T12:00:00", "2031-10-20T12:00:00");
  auto after = sample("2031-11-01T11:00:00", "2031-11-01T12:00:00");
  before.daylight_saving = true;
  const auto autumn = events({before, after});
  REQUIRE(autumn.size() == 1);
  CHECK(autumn[0].kind == ClockEvent::Kind::daylight_saving);
  CHECK(autumn[0].seconds == -3600);
  auto early = sample("2031-11-10T12:00:00", "2031-11-10T12:00:00");
  auto late = sample("2032-02-10T13:00:00", "2032-02-10T12:00:00");
  early.daylight_saving = late.daylight_saving = true;
  // Three months of 500 ppm, the wildest crystal, would be 66 minutes.
  CHECK(events({early, late}).empty());
  late = sample("2031-11-20T13:00:00", "2031-11-20T12:00:00");
  CHECK(events({early, late}).at(0).kind == ClockEvent::Kind::jump);
}

TEST_CASE("days that a month had too many or too few are counted") {
  const auto first = sample("2031-02-20T12:00:00", "2031-02-20T12:00:00");
  const auto seen = [&](const char* shown) {
    return events({first, sample(shown, "2031-03-05T12:00:00")}).at(0);
  };
  CHECK(seen("2031-03-04T12:00:00").text.starts_with("the date is 1 day off"));
  CHECK(seen("2031-03-03T12:00:00").text.starts_with("the date is 2 days off"));
  CHECK(seen("2031-03-02T12:00:00").text.starts_with("the date is 3 days off"));
  CHECK(seen("2031-03-03T21:00:00").kind == ClockEvent::Kind::jump);
  CHECK(seen("2031-03-01T12:00:00").kind == ClockEvent::Kind::jump);
  // Within one month no month's end can be at fault.
  CHECK(events({first, sample("2031-02-26T12:00:00", "2031-02-27T12:00:00")}).at(0).kind ==
        ClockEvent::Kind::jump);
  CHECK(events({sample("2031-12-20T12:00:00", "2031-12-20T12:00:00"),
                sample("2032-12-21T12:00:00", "2032-12-20T12:00:00")})
            .at(0)
            .kind == ClockEvent::Kind::month_length);
}

TEST_CASE("a clock that went back, but to no date that firmware sets, was set by somebody") {
  const auto first = sample("2031-05-01T12:00:00", "2031-05-01T12:00:00");
  // Of 2000, 1900 and 2100 only 2000 has a 29 February.
  for (const char* shown : {"2000-02-29T00:10:00", "1985-01-08T00:10:00", "2031-04-01T12:00:00"}) {
    INFO(shown);
    const Drift found = drift({first, sample(shown, "2031-05-08T12:00:00")});
    REQUIRE(found.events.size() == 1);
    CHECK(found.events[0].kind == ClockEvent::Kind::ran_backwards);
    CHECK_FALSE(found.ppm);
  }
  CHECK(events({first, sample("1990-01-08T00:10:00", "2031-05-08T12:00:00")}).at(0).kind ==
        ClockEvent::Kind::reset);
}

TEST_CASE("DSE that made no change over a change of the clocks is nothing to tell") {
  auto before = sample("2031-04-01T12:00:00", "2031-04-01T12:00:00");
  auto after = sample("2031-04-10T12:00:01", "2031-04-10T12:00:00");
  before.daylight_saving = after.daylight_saving = true;
  CHECK(events({before, after}).empty());
}
