#include "terminal/audit.h"

#include <catch2/catch.hpp>

#include "layout/library.h"
#include "render/audit_csv.h"
#include "render/audit_json.h"
#include "terminal/shorten.h"

using namespace rtcmend;

namespace {

enum class Case { sound, blank, unclear };

struct Fixture {
  std::shared_ptr<const Layout> layout = std::make_shared<const Layout>(built_in_layout("at"));
  AuditText text{Ink()}, wide{Ink(), AuditText::Width::whole};
  AuditJson json;
  AuditCsv csv;

  Verdict judged(Case what) {
    FindingSet findings;
    if (what == Case::blank) findings.add(FindingKind::blank);
    if (what != Case::sound) findings.add(FindingKind::daylight_saving);
    return {what == Case::unclear ? nullptr : layout, findings};
  }

  std::string line(const AuditLines& lines, Case what, const AuditSubject& subject = {"a.bin"},
                   std::optional<std::size_t> copy_of = {}) {
    std::string made;
    lines.open(12, made);
    const AuditLines::Wording wording = lines.wording(judged(what));
    made += wording.before;
    const std::size_t name_at = made.size();
    made += lines.name(subject);
    if (subject.number) lines.add_number(*subject.number, made);
    made += wording.behind;
    lines.close(copy_of, name_at, made);
    return made;
  }
  std::string no_dump(const AuditLines& lines, const AuditSubject& subject,
                      const std::string& trouble) {
    std::string made;
    lines.open(12, made);
    made += lines.no_dump(subject, trouble);
    lines.close({}, made.size(), made);
    return made;
  }
};

const std::string long_path =
    "the collection of the museum in the valley/machines/bramble/first dump.bin";

}  // namespace

TEST_CASE_METHOD(Fixture, "the line of a dump has its worth, the reason, its layout and its name") {
  CHECK(text.heading() == "  line worth    because        layout          dump\n");
  CHECK(line(text, Case::sound) == "    12 proven   sound          at              a.bin\n");
  CHECK(line(text, Case::blank) == "    12 broken   blank          at              a.bin\n");
  CHECK(line(text, Case::unclear) == "    12 unproven no check known -               a.bin\n");
  CHECK(line(text, Case::sound, {"many.bin", "", 3}, 4) ==
        "    12 proven   sound          at              many.bin [3] =4\n");
}

TEST_CASE_METHOD(Fixture, "a line fits 80 columns: the name loses its middle, a copy's some more") {
  CHECK(line(text, Case::sound, {long_path}) ==
        "    12 proven   sound          at              the collec...amble/first dump.bin\n");
  for (const auto copy_of : {std::optional<std::size_t>(), std::optional<std::size_t>(123456)}) {
    const std::string made = line(text, Case::sound, {long_path}, copy_of);
    CHECK(made.size() <= 81);
    CHECK(made.find("dump.bin") != std::string::npos);
  }
  CHECK(line(text, Case::sound, {long_path}, 123456).ends_with(" =123456\n"));
  CHECK(line(text, Case::sound, {long_path, "", 123456}).size() <= 81);
  CHECK(no_dump(text, {long_path}, std::string(200, 'x')).size() == 81);
}

TEST_CASE_METHOD(Fixture, "a wide line is whole, and has the ids of all that was found") {
  CHECK(line(wide, Case::blank, {long_path}, 4) ==
        "    12 broken   blank          at              " + long_path +
            ": blank, daylight-saving =4\n");
  CHECK(no_dump(wide, {"a.zip", "b.bin"}, std::string(200, 'x')) ==
        "    12 no dump  a.zip: b.bin: " + std::string(200, 'x') + "\n");
}

TEST_CASE_METHOD(Fixture, "the JSON line of a dump has the same, null where nothing can be said") {
  CHECK(line(json, Case::sound) ==
        R"({"line":12,"path":"a.bin","layout":"at","sound":true,"standing":{"dump":"trusted",)"
        R"("settings":"proven","clock":"right"},"worth":"proven","reason":"sound",)"
        R"("findings":[],"error":null,"copy_of":null})"
        "\n");
  CHECK(line(json, Case::blank, {"a.zip", "b.bin"}, 4) ==
        R"({"line":12,"path":"a.zip","member":"b.bin","layout":"at","sound":false,)"
        R"("standing":{"dump":"trusted","settings":"broken","clock":"right"},)"
        R"("worth":"broken","reason":"blank",)"
        R"("findings":["blank","daylight-saving"],"error":null,"copy_of":4})"
        "\n");
  CHECK(line(json, Case::unclear, {"a.bin", "", 7}) ==
        R"({"line":12,"path":"a.bin","number":7,"layout":null,"sound":null,"standing":null,)"
        R"("worth":"unproven","reason":"no check known",)"
        R"("findings":["daylight-saving"],"error":null,"copy_of":null})"
        "\n");
}

TEST_CASE_METHOD(Fixture, "the table has a heading and a row a dump, and runs no formula") {
  CHECK(csv.heading() ==
        "line,worth,reason,layout,sound,dump,settings,clock,findings,error,path,number,copy_of"
        "\r\n");
  CHECK(line(csv, Case::blank, {"a.zip", "b, \"c\".bin"}, 4) ==
        "12,broken,blank,\"at\",no,trusted,broken,right,blank daylight-saving,,"
        "\"a.zip: b, \"\"c\"\".bin\",,4\r\n");
  CHECK(line(csv, Case::unclear, {"=1+1", "", 7}) ==
        "12,unproven,no check known,,,,,,daylight-saving,,\"'=1+1\",7,\r\n");
  CHECK(no_dump(csv, {"a.bin"}, "it is empty") ==
        "12,no dump,,,,,,,,\"it is empty\",\"a.bin\",,\r\n");
  CHECK(csv.summary({}).empty());
}

TEST_CASE_METHOD(Fixture,
                 "what holds no dump says why, with the number of its image if it has one") {
  CHECK(no_dump(text, {"a.zip", "b.bin"}, "it is empty") ==
        "    12 no dump  a.zip: b.bin: it is empty\n");
  CHECK(no_dump(text, {"many.bin", "", 12}, "it is cut short") ==
        "    12 no dump  many.bin [12]: it is cut short\n");
  CHECK(no_dump(json, {"a.zip", "b.bin"}, "it is empty") ==
        "{\"line\":12,\"path\":\"a.zip\",\"member\":\"b.bin\",\"layout\":null,\"sound\":null,"
        "\"standing\":null,\"worth\":null,\"reason\":null,\"findings\":[],"
        "\"error\":\"it is empty\",\"copy_of\":null}\n");
}

TEST_CASE_METHOD(Fixture, "names that could upset a terminal or a reader are made safe") {
  CHECK(text.name({"a\x1b[2J.bin", "", {}}) == "a\\x1B[2J.bin");
  CHECK(text.name({"caf\xC3\xA9\x7F", "", {}}).find('\x7F') == std::string::npos);
  CHECK(json.name({"a\"b\\c", "", {}}) == R"(,"path":"a\"b\\c")");
  CHECK(json.name({"\xC3\xA9", "", {}}) == R"(,"path":"\u00e9")");
  CHECK(json.name({"a\tb", "", {}}) == R"(,"path":"a\tb")");
  CHECK(csv.name({"a\x1b[2J.bin", "", {}}) == "\"a\\x1B[2J.bin\",");
}

TEST_CASE_METHOD(Fixture, "the summary counts by worth, by layout and by finding") {
  AuditEnd end;
  end.tally.worth = {3, 0, 1};
  end.tally.sound = 2;
  end.tally.no_dump = 2;
  end.tally.copies = 1;
  end.tally.by_layout["at"] = {3, 0, 1};
  end.tally.by_finding["blank"] = 1;
  end.aside = {2, 1, {{"dumps", "/srv/dumps"}}};
  CHECK(text.summary(end) ==
        "\n4 dumps: 3 proven, 1 broken or misread\n"
        "2 of them sound: settings proven, clock right, no fault\n"
        "2 files hold no dump, or could not be read\n"
        "1 dump has the settings of one before: = is followed by its line\n"
        "Passed over: 2 leftovers of file managers and archivers, 1 link inside folders\n"
        "Followed: dumps is a link to /srv/dumps\n"
        "\nLayouts                                          proven unproven   broken\n"
        "  at                                                  3        0        1\n"
        "\nFindings             dumps\n"
        "  blank                         1\n");
  CHECK(json.summary(end) ==
        "{\"summary\":{\"complete\":true,\"dumps\":4,\"sound\":2,\"proven\":3,\"unproven\":0,"
        "\"broken\":1,\"no_dump\":2,\"copies\":1,\"copies_untold\":false,\"leftovers\":2,"
        "\"links_passed_over\":1,\"links_followed\":[{\"path\":\"dumps\",\"to\":\"/srv/dumps\"}],"
        "\"layouts\":{\"at\":{\"proven\":3,\"unproven\":0,\"broken\":1}},"
        "\"findings\":{\"blank\":1},\"layout\":null,\"layout_file\":null}}\n");
}

TEST_CASE_METHOD(Fixture, "a stopped audit says so before its counts, an empty one has no counts") {
  AuditEnd stopped;
  stopped.complete = false;
  CHECK(text.summary({}) == "\nno dumps: nothing to judge\n");
  CHECK(text.summary(stopped) ==
        "\nStopped before the end: this is about what was judged until then.\n"
        "no dumps: nothing to judge\n");
  CHECK(json.summary(stopped).starts_with("{\"summary\":{\"complete\":false,\"dumps\":0,"));
  AuditEnd full;
  full.copies_untold = true;
  CHECK(text.summary(full).find("copies may go untold") != std::string::npos);
}

TEST_CASE("a text is cut by the columns that it takes, and never inside a letter") {
  CHECK(columns_of("caf\xC3\xA9") == 4);
  CHECK(columns_of("e\xCC\x81") == 1);                 // an accent of its own
  CHECK(columns_of("\xE6\xA9\x9F\xE6\xA2\xB0") == 4);  // two Han letters
  CHECK(shortened("bramble.bin", 11) == "bramble.bin");
  CHECK(shortened("the bramble.bin", 11) == "th...le.bin");
  CHECK(cut_short("it is cut short", 11) == "it is cu...");
  const std::string han = "\xE6\xA9\x9F\xE6\xA2\xB0\xE6\xA9\x9F\xE6\xA2\xB0\xE6\xA9\x9F";
  CHECK(shortened(han, 9) == "\xE6\xA9\x9F...\xE6\xA2\xB0\xE6\xA9\x9F");
  CHECK(cut_short(han, 8) == "\xE6\xA9\x9F\xE6\xA2\xB0...");
}
