#include <catch2/catch.hpp>

#include "complaint.h"
#include "make/compose.h"

using namespace rtcmend;

namespace {

std::string complaint_about(std::string_view text) {
  return complaint([&] { parse_description(text, "mine.json"); });
}

}  // namespace

TEST_CASE("a description holds layout, clock, fields and a note") {
  const Description description = parse_description(
      R"({"layout": "at", "clock": "2031-05-14T09:30:00",
          "set": {"floppy_a": "1.44M", "disk_0_type": 39, "coprocessor": true}, "note": "attic"})",
      "mine.json");
  CHECK(description.layout == "at");
  CHECK(description.clock == DateTime{2031, 5, 14, 9, 30, 0});
  CHECK_FALSE(description.clock_now);
  CHECK(description.note == "attic");
  REQUIRE(description.set.size() == 3);  // in the order of their names
  CHECK(description.set[0] == std::pair<std::string, Value>("coprocessor", true));
  CHECK(description.set[1] == std::pair<std::string, Value>("disk_0_type", std::int64_t{39}));
  CHECK(description.set[2] == std::pair<std::string, Value>("floppy_a", std::string("1.44M")));
}

TEST_CASE("a description may be empty") {
  const Description description = parse_description("{}", "mine.json");
  CHECK(description.layout.empty());
  CHECK_FALSE(description.clock.has_value());
  CHECK(description.set.empty());
}

TEST_CASE("\"now\" is left for the caller to fill in") {
  const Description description = parse_description(R"({"clock": "now"})", "mine.json");
  CHECK(description.clock_now);
  CHECK_FALSE(description.clock.has_value());
}

TEST_CASE("a description that cannot be meant is refused with its place") {
  CHECK(complaint_about("[]").starts_with("mine.json: a machine description is one JSON object"));
  CHECK(complaint_about(R"({"layot": "at"})") ==
        "mine.json at /layot: a machine description has no such key / try: did you mean "
        "\"layout\"?");
  CHECK(complaint_about(R"({"bogus_key_name": 1})")
            .find("its keys are layout, size, clock, set, note") != std::string::npos);
  CHECK(complaint_about(R"({"layout": 64})").starts_with("mine.json at /layout: it must be text"));
  CHECK(complaint_about(R"({"note": []})").starts_with("mine.json at /note: it must be text"));
  CHECK(complaint_about(R"({"set": ["floppy_a"]})")
            .starts_with("mine.json at /set: it must be an object"));
  CHECK(complaint_about(R"({"set": {"disk_0_type": 2.5}})")
            .starts_with("mine.json at /set/disk_0_type: a field takes a whole number"));
  CHECK(complaint_about(R"({"set": {"disk_0_type": null}})")
            .starts_with("mine.json at /set/disk_0_type: a field takes a whole number"));
  CHECK(
      complaint_about(R"({"set": {"floppy_a": "none", "floppy_a": "1.2M"}})").find("given twice") !=
      std::string::npos);
  CHECK(complaint_about("{\n\"set\": {,}\n}").starts_with("mine.json:2"));
}

TEST_CASE("a clock that does not exist or lies outside 1980 to 2099 is refused") {
  for (const char* time :
       {"2031-02-29T00:00:00", "1979-12-31T00:00:00", "2100-01-01T00:00:00", "tomorrow", ""}) {
    INFO(time);
    CHECK(complaint_about(std::string(R"({"clock": ")") + time + "\"}")
              .starts_with("mine.json at /clock: "));
  }
}

TEST_CASE("a huge number is kept huge, for the field to refuse") {
  const Description description =
      parse_description(R"({"set": {"disk_0_type": 18446744073709551615}})", "mine.json");
  CHECK(description.set[0].second == Value(std::int64_t{9223372036854775807}));
}

TEST_CASE("a description is saved as JSON and read back the same") {
  Description description;
  description.layout = "at";
  description.clock = DateTime{2031, 5, 14, 9, 30, 0};
  description.set = {{"floppy_a", std::string("1.44M")},
                     {"disk_0_type", std::int64_t{39}},
                     {"coprocessor", false}};
  description.note = "attic \"two\"";
  CHECK(to_json(description) ==
        "{\n"
        "  \"layout\": \"at\",\n"
        "  \"clock\": \"2031-05-14T09:30:00\",\n"
        "  \"set\": {\n"
        "    \"floppy_a\": \"1.44M\",\n"
        "    \"disk_0_type\": 39,\n"
        "    \"coprocessor\": false\n"
        "  },\n"
        "  \"note\": \"attic \\\"two\\\"\"\n"
        "}\n");
  const Description again = parse_description(to_json(description), "mine.json");
  CHECK(again.clock == description.clock);
  CHECK(again.note == description.note);
  CHECK(again.set.size() == 3);
}
