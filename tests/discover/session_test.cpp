#include "discover/session.h"

#include <catch2/catch.hpp>

#include "base/error.h"

using namespace rtcmend;

namespace {

std::string refusal_of(const std::string& text) {
  try {
    parse_session(text, "s.json");
  } catch (const Error& error) {
    return error.what();
  }
  return "";
}

}  // namespace

TEST_CASE("a session lists its steps in order, and a step without a label is an idle start") {
  const SessionFile session = parse_session(
      R"({"layout": "at", "steps": [{"dump": "a.bin"},
          {"label": "floppy_b", "value": "1.44M", "dump": "b.bin"},
          {"label": "memory", "value": 640, "dump": "c.bin"}]})",
      "s.json");
  CHECK(session.layout == "at");
  REQUIRE(session.entries.size() == 3);
  CHECK(session.entries[0].setting.empty());
  CHECK(session.entries[0].dump == "a.bin");
  CHECK(session.entries[1].setting == "floppy_b");
  CHECK(session.entries[1].value == "1.44M");
  CHECK(session.entries[2].value == "640");
}

TEST_CASE("a session that says something else is refused with its place") {
  CHECK(refusal_of("[]").find("s.json") == 0);
  CHECK(refusal_of(R"({"steps": [{"label": "a", "dump": "x"}]})").find("/steps/0") !=
        std::string::npos);
  CHECK(refusal_of(R"({"steps": [{"label": "a", "value": "1"}]})").find("no dump") !=
        std::string::npos);
  CHECK(refusal_of(R"({"steps": [{"lable": "a", "value": "1", "dump": "x"}]})").find("lable") !=
        std::string::npos);
}

TEST_CASE("a value may be a word, a whole number or a yes and no, and nothing else") {
  const SessionFile session = parse_session(
      R"({"note": "of an evening", "layout": null, "steps": [
          {"label": null, "value": null, "dump": "idle.bin"},
          {"label": "cache", "value": true, "dump": "a.bin"},
          {"label": "cache", "value": false, "dump": "b.bin"}]})",
      "s.json");
  CHECK(session.layout.empty());
  CHECK(session.entries[0].setting.empty());
  CHECK(session.entries[1].value == "yes");
  CHECK(session.entries[2].value == "no");
  CHECK(refusal_of(R"({"steps": [{"label": "a", "value": 1.5, "dump": "x"}]})") ==
        "s.json at /steps/0/value: this must be a word or a whole number");
  CHECK(refusal_of(R"({"steps": [{"label": ["a"], "value": 1, "dump": "x"}]})")
            .find("/steps/0/label") != std::string::npos);
}

TEST_CASE("a session with something else in it is refused") {
  CHECK(refusal_of(R"({"steps": {}})").find("s.json") == 0);
  CHECK(refusal_of("{}").find("list of \"steps\"") != std::string::npos);
  CHECK(refusal_of(R"({"steps": [3]})").find("/steps/0") != std::string::npos);
  CHECK(refusal_of(R"({"steps": [], "layuot": "at"})").find("layuot") != std::string::npos);
}

TEST_CASE("a step on the command line is SETTING=VALUE:DUMP") {
  const SessionEntry step = parse_step("floppy_b=1.44M:dumps/one.bin");
  CHECK(step.setting == "floppy_b");
  CHECK(step.value == "1.44M");
  CHECK(step.dump == "dumps/one.bin");
  for (const char* wrong : {"floppy_b", "floppy_b=1.44M", "=1:x", "a=:x", "a=1:", "a:x"}) {
    INFO(wrong);
    CHECK_THROWS_AS(parse_step(wrong), Error);
  }
}
