#include "terminal/drift.h"

#include <catch2/catch.hpp>
#include <string>

#include "render/drift_json.h"

using namespace rtcmend;

namespace {

bool has(const std::string& text, std::string_view words) {
  return text.find(words) != std::string::npos;
}

/// Two readings, thirty days or one hour apart, of a clock that was right at first.
Drift measured(double ppm, DriftVerdict verdict) {
  Drift drift;
  drift.ppm = ppm;
  drift.seconds_per_day = ppm * 0.0864;
  drift.seconds_per_month = ppm * 2.592;
  drift.ppm_uncertainty = 0.8;
  drift.verdict = verdict;
  drift.samples = {{{2031, 5, 1, 12, 0, 0}, {2031, 5, 1, 12, 0, 0}, false, true},
                   {{2031, 5, 31, 11, 58, 42}, {2031, 5, 31, 12, 0, 0}, false, true}};
  return drift;
}

Drift unmeasured() {
  Drift drift = measured(0, DriftVerdict::no_stretch);
  drift.ppm.reset();
  return drift;
}

std::string first_line(const std::string& text) {
  return text.substr(0, text.find('\n'));
}

}  // namespace

TEST_CASE("a clock that falls behind loses, one that runs ahead gains") {
  CHECK(drift_text(measured(-30, DriftVerdict::outside), Ink())
            .starts_with(
                "The clock loses 2.59 s a day, 78 s in 30 days: -30.0 ppm, give or take 0.8.\n"));
  CHECK(drift_text(measured(10, DriftVerdict::within), Ink())
            .starts_with(
                "The clock gains 0.86 s a day, 26 s in 30 days: +10.0 ppm, give or take 0.8.\n"));
}

TEST_CASE("readings stand with the good clock first, and say how far they span") {
  const std::string text = drift_text(measured(-30, DriftVerdict::outside), Ink());
  CHECK(has(text,
            "\nReadings, over 30.0 days\n"
            "       a good clock         the chip             ahead by\n"
            "    1  2031-05-01 12:00:00  2031-05-01 12:00:00  +0 s\n"
            "    2  2031-05-31 12:00:00  2031-05-31 11:58:42  -78 s\n"));
  Drift close = measured(-30, DriftVerdict::too_close);
  close.samples[1] = {{2031, 5, 1, 13, 30, 0}, {2031, 5, 1, 13, 30, 0}, false, true};
  CHECK(has(drift_text(close, Ink()), "Readings, over 1.5 hours\n"));
}

TEST_CASE("every verdict of a drift has its words, its colour and its word in JSON") {
  // One minute in 30 days, 60 / 2,592,000 = 23.1 ppm: DS12885.
  const auto says = [](DriftVerdict verdict, std::string_view begins, std::string_view colour,
                       std::string_view word) {
    const Drift drift = measured(-30, verdict);
    CHECK(has(drift_text(drift, Ink()), "\n" + std::string(begins)));
    CHECK(has(drift_text(drift, Ink(true)),
              "\x1b[" + std::string(colour) + "m" + std::string(begins)));
    CHECK(drift_json(drift)["verdict"] == word);
  };
  says(DriftVerdict::within, "Within its limits: a potted module may be off by one minute", "32",
       "within");
  says(DriftVerdict::at_the_limit, "Just at the limit: a potted module", "33", "at-the-limit");
  says(DriftVerdict::outside, "Outside its limits: a potted module", "1;31", "outside");
  says(DriftVerdict::too_close, "Too close together to tell anything: two readings", "1;31",
       "too-close");
  CHECK(has(drift_text(measured(-30, DriftVerdict::within), Ink()), "23.1"));
}

TEST_CASE("without a stretch to measure there is no rate, and JSON says null") {
  const Drift drift = unmeasured();
  CHECK(first_line(drift_text(drift, Ink())) ==
        "No rate can be told: what happened leaves no two readings to measure between.");
  const Json json = drift_json(drift);
  CHECK(json["verdict"] == "no-stretch");
  for (const char* key : {"ppm", "seconds_per_day", "seconds_per_month", "ppm_uncertainty"})
    CHECK(json[key].is_null());
}

TEST_CASE("the JSON of a drift has the rate and both times of every reading") {
  const Json json = drift_json(measured(-30, DriftVerdict::outside));
  CHECK(json["ppm"] == -30.0);
  CHECK(json["seconds_per_day"].get<double>() == Approx(-2.592));
  CHECK(json["seconds_per_month"].get<double>() == Approx(-77.76));
  CHECK(json["ppm_uncertainty"] == 0.8);
  CHECK(json["events"].empty());
  CHECK(json["readings"][1] == Json::parse(R"({"reference": "2031-05-31T12:00:00",
                                               "shown": "2031-05-31T11:58:42", "ahead": -78})"));
}

TEST_CASE("what was noticed is told with the number of its reading, counted from one") {
  using Kind = ClockEvent::Kind;
  Drift drift = measured(-30, DriftVerdict::within);
  drift.events = {{Kind::jump, 1, 3600, "The clock jumped ahead by an hour."}};
  CHECK(has(drift_text(drift, Ink()),
            "\nNoticed\n  reading 2  The clock jumped ahead by an hour.\n"));
  CHECK(drift_json(drift)["events"][0] ==
        Json::parse(R"({"kind": "jump", "reading": 2, "seconds": 3600,
                        "text": "The clock jumped ahead by an hour."})"));
}

TEST_CASE("every kind of event has its word in JSON") {
  using Kind = ClockEvent::Kind;
  Drift drift = measured(-30, DriftVerdict::within);
  for (const Kind kind : {Kind::reset, Kind::stopped, Kind::ran_backwards, Kind::daylight_saving,
                          Kind::month_length, Kind::century, Kind::jump})
    drift.events.push_back({kind, 1, 0, "Something."});
  std::vector<std::string> words;
  const Json json = drift_json(drift);
  for (const Json& event : json["events"]) words.push_back(event["kind"]);
  CHECK(words == std::vector<std::string>{"reset", "stopped", "ran-backwards", "daylight-saving",
                                          "month-length", "century", "jump"});
}

TEST_CASE("a first reading tells how far the clock is off") {
  const DateTime noon{2031, 5, 1, 12, 0, 0};
  CHECK(first_reading_text({noon, noon, false, true})
            .starts_with("First reading noted: the clock agrees with the good one. Read it again"));
  CHECK(first_reading_text({{2031, 5, 1, 12, 0, 9}, noon, false, true})
            .starts_with("First reading noted: the clock is 9 s ahead."));
  CHECK(first_reading_text({{2031, 5, 1, 11, 59, 50}, noon, false, true})
            .starts_with("First reading noted: the clock is 10 s behind."));
}
