#include "terminal/audit.h"

#include <catch2/catch.hpp>

#include "layout/library.h"
#include "render/audit_json.h"

using namespace rtcmend;

namespace {

enum class Case { sound, unsound, unclear };

struct Fixture {
  std::shared_ptr<const Layout> layout = std::make_shared<const Layout>(built_in_layout("at"));
  AuditText text{Ink()};
  AuditJson json;

  Verdict judged(Case what) {
    FindingSet findings;
    if (what != Case::sound) {
      findings.add(FindingKind::blank);
      findings.add(FindingKind::daylight_saving);
    }
    return {what == Case::unclear ? nullptr : layout, findings};
  }
};

}  // namespace

TEST_CASE_METHOD(Fixture, "the line of a dump has its standing, its layout and its findings") {
  const auto line = [&](Case standing) {
    const auto wording = text.wording(judged(standing));
    return wording.before + text.name({"a.bin", "", {}}) + wording.behind;
  };
  CHECK(line(Case::sound) == "sound      at                   a.bin\n");
  CHECK(line(Case::unsound) == "not sound  at                   a.bin: blank, daylight-saving\n");
  CHECK(line(Case::unclear) == "unclear    -                    a.bin: blank, daylight-saving\n");
}

TEST_CASE_METHOD(Fixture, "the JSON line of a dump has the same, null where nothing can be said") {
  const auto line = [&](Case standing) {
    const auto wording = json.wording(judged(standing));
    return wording.before + json.name({"a.bin", "", {}}) + wording.behind;
  };
  CHECK(line(Case::sound) ==
        R"({"path":"a.bin","layout":"at","sound":true,"standing":{"dump":"trusted",)"
        R"("settings":"proven","clock":"right"},"findings":[],"error":null})"
        "\n");
  CHECK(line(Case::unsound) ==
        "{\"path\":\"a.bin\",\"layout\":\"at\",\"sound\":false,\"standing\":{\"dump\":"
        "\"trusted\",\"settings\":\"broken\",\"clock\":\"right\"},"
        "\"findings\":[\"blank\",\"daylight-saving\"],\"error\":null}\n");
  CHECK(line(Case::unclear) ==
        "{\"path\":\"a.bin\",\"layout\":null,\"sound\":null,\"standing\":null,"
        "\"findings\":[\"blank\",\"daylight-saving\"],\"error\":null}\n");
}

TEST_CASE_METHOD(Fixture,
                 "what holds no dump says why, with the number of its image if it has one") {
  CHECK(text.broken({"a.zip", "b.bin", {}}, "it is empty") ==
        "no dump    -                    a.zip: b.bin: it is empty\n");
  CHECK(text.broken({"many.bin", "", 12}, "it is cut short") ==
        "no dump    -                    many.bin [12]: it is cut short\n");
  CHECK(json.broken({"a.zip", "b.bin", {}}, "it is empty") ==
        "{\"path\":\"a.zip\",\"member\":\"b.bin\",\"layout\":null,\"sound\":null,\"standing\":null,"
        "\"findings\":[],\"error\":\"it is empty\"}\n");
  CHECK(json.broken({"many.bin", "", 12}, "it is cut short") ==
        "{\"path\":\"many.bin\",\"number\":12,\"layout\":null,\"sound\":null,\"standing\":null,"
        "\"findings\":[],\"error\":\"it is cut short\"}\n");
}

TEST_CASE_METHOD(Fixture, "names that could upset a terminal or a reader are made safe") {
  CHECK(text.name({"a\x1b[2J.bin", "", {}}) == "a\\x1B[2J.bin");
  CHECK(text.name({"caf\xC3\xA9\x7F", "", {}}).find('\x7F') == std::string::npos);
  CHECK(json.name({"a\"b\\c", "", {}}) == R"({"path":"a\"b\\c")");
  CHECK(json.name({"\xC3\xA9", "", {}}) == R"({"path":"\u00e9")");
  CHECK(json.name({"a\tb", "", {}}) == R"({"path":"a\tb")");
}

TEST_CASE_METHOD(Fixture, "the summary counts by standing, by layout and by finding") {
  AuditTally tally;
  tally.sound = 3;
  tally.unsound = 1;
  tally.broken = 2;
  tally.by_layout["at"] = {3, 1};
  tally.by_finding["blank"] = 1;
  CHECK(text.summary(tally, true) ==
        "\n6 dumps: 3 sound, 1 not sound, 2 no dump\n"
        "\nLayouts              sound    not sound\n"
        "  at                            3          1\n"
        "\nFindings             dumps\n"
        "  blank                         1\n");
  CHECK(json.summary(tally, true) ==
        "{\"summary\":{\"complete\":true,\"dumps\":6,\"sound\":3,\"unsound\":1,\"unclear\":0,"
        "\"broken\":2,\"layouts\":{\"at\":{\"sound\":3,\"unsound\":1}},"
        "\"findings\":{\"blank\":1}}}\n");
}

TEST_CASE_METHOD(Fixture, "a stopped audit says so before its counts, an empty one has no counts") {
  CHECK(text.summary({}, true) == "\nno dumps: nothing to judge\n");
  CHECK(text.summary({}, false) ==
        "\nStopped before the end: this is about what was judged until then.\n"
        "no dumps: nothing to judge\n");
  CHECK(json.summary({}, false).starts_with("{\"summary\":{\"complete\":false,\"dumps\":0,"));
}
