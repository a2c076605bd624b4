#include "upkeep/drift_log.h"

#include <catch2/catch.hpp>

#include "base/error.h"

using namespace rtcmend;

namespace {

std::string complaint(const char* text) {
  try {
    parse_drift_log(text, "clock.log");
  } catch (const Error& error) {
    return error.what();
  }
  return "accepted";
}

constexpr const char* two_lines =
    "{\"shown\":\"2031-05-01T12:00:00\",\"reference\":\"2031-05-01T12:00:00\","
    "\"daylight_saving\":false,\"running\":true}\n"
    "\n"
    "{\"shown\":\"2031-05-31T12:01:00\",\"reference\":\"2031-05-31T12:00:00\","
    "\"daylight_saving\":true,\"running\":null}\n";

}  // namespace

TEST_CASE("a log is read back as it was written") {
  const auto samples = parse_drift_log(two_lines, "clock.log");
  REQUIRE(samples.size() == 2);
  CHECK(samples[0].running == true);
  CHECK(samples[1].shown == DateTime{2031, 5, 31, 12, 1, 0});
  CHECK(samples[1].daylight_saving);
  CHECK_FALSE(samples[1].running);
  CHECK(drift_log_line(samples[1]) ==
        "{\"shown\":\"2031-05-31T12:01:00\",\"reference\":\"2031-05-31T12:00:00\","
        "\"daylight_saving\":true,\"running\":null}");
}

TEST_CASE("a line that is no reading is refused by its number") {
  CHECK(complaint("[]\n").find("clock.log:1: it is not an object") == 0);
  CHECK(complaint("\n{\"shown\":\"yesterday\",\"reference\":\"2031-05-01T12:00:00\"}")
            .find("clock.log:2: \"shown\" is no date and time") == 0);
  CHECK(complaint("{\"shown\":\"2031-05-01T12:00:00\"}")
            .find("clock.log:1: \"reference\" is missing") == 0);
  CHECK(complaint("{\"shown\":\"2031-05-01T12:00:00\",\"ref").find("clock.log:1") == 0);
  CHECK(complaint("{\"shown\":\"2031-05-01T12:00:00\",\"reference\":\"2031-05-01T12:00:00\","
                  "\"running\":\"yes\"}")
            .find("clock.log:1: \"running\" is neither") == 0);
}

TEST_CASE("a reading is logged once") {
  const auto samples = parse_drift_log(two_lines, "clock.log");
  CHECK(not_logged_yet({samples[0]}, samples).size() == 1);
  CHECK(not_logged_yet(samples, samples).empty());
}

TEST_CASE("a clock seen running, or standing, is logged as such") {
  ClockSample sample;
  sample.shown = {2031, 5, 1, 12, 0, 7};
  sample.reference = {2031, 5, 1, 12, 0, 0};
  sample.running = true;
  CHECK(drift_log_line(sample) ==
        "{\"shown\":\"2031-05-01T12:00:07\",\"reference\":\"2031-05-01T12:00:00\","
        "\"daylight_saving\":false,\"running\":true}");
  sample.running = false;
  CHECK(drift_log_line(sample).ends_with("\"running\":false}"));
}

TEST_CASE("a number where a time belongs is refused") {
  CHECK(complaint("{\"shown\":2031,\"reference\":\"2031-05-01T12:00:00\"}")
            .find("clock.log:1: \"shown\" is missing, or is no text") == 0);
}

TEST_CASE("a second reading at the same moment is another one") {
  const auto samples = parse_drift_log(two_lines, "clock.log");
  ClockSample other = samples[0];
  other.shown.second = 1;
  CHECK(not_logged_yet(samples, {other}).size() == 1);
}
