#include "render/json.h"

#include <catch2/catch.hpp>

#include "render/small_layout.h"

using namespace rtcmend;
using namespace rtcmend::test;

TEST_CASE("show's JSON has the promised keys, in order, and numbers as numbers") {
  const Shown shown(at_64_image());
  CHECK(to_line(show_json(shown.card())) ==
        R"({"layout":"small","layout_file":null,"size":64,"form":"raw","sound":true,)"
        R"("standing":{"dump":"trusted","settings":"proven","clock":"right"},)"
        R"("clock":{"iso":"2031-05-14T09:30:00","weekday":4,"encoding":"bcd","hours":24,)"
        R"("running":true},"fields":[)"
        R"({"id":"floppy_a","label":"First floppy drive","group":"drives","at":[16],)"
        R"("value":"1.44M","text":"1.44M","known":true},)"
        R"({"id":"disk_0_type","label":"First fixed disk, type","group":"drives","at":[18,25],)"
        R"("value":39,"text":"39","known":true},)"
        R"({"id":"base_memory_kib","label":"Base memory","group":"memory","at":[21,22],)"
        R"("value":640,"text":"640 KiB","known":true},)"
        R"({"id":"start_status","label":"What the self-test found at the last start",)"
        R"("group":"memory","at":[14],"value":0,"text":"0","known":true},)"
        R"({"id":"century","label":"Century","group":"memory","at":[50],)"
        R"("value":20,"text":"20","known":true},)"
        R"({"id":"word","label":"Password","group":"locks","at":[56,57,58,59,60,61,62,63],)"
        R"("value":null,"text":"not set","known":true}],)"
        R"("checks":[{"id":"sum-10-2d","kind":"sum","over":[[16,45]],"at":[46,47],)"
        R"("stored":615,"computed":615,"ok":true}],"findings":[]})");
}

TEST_CASE("what is unknown is null") {
  const Shown shown(without(at_64_image(), {0x00, 0x12}));
  const Json json = show_json(shown.card());
  CHECK(json["clock"]["iso"].is_null());
  CHECK(json["clock"]["hours"].is_null());
  CHECK(json["fields"][0]["value"].is_null());
  CHECK(json["fields"][0]["known"] == false);
  CHECK(json["checks"][0]["computed"].is_null());
  CHECK(json["checks"][0]["stored"] == 615);
  CHECK(json["checks"][0]["ok"] == false);
}

TEST_CASE("verify's JSON is the judgement alone") {
  const Shown shown(with_bytes(at_64_image(), {{0x2F, 0x68}}));
  const Json json = verify_json(shown.card());
  CHECK(json.size() == 6);
  CHECK(json["layout"] == "small");
  CHECK(json["sound"] == false);
  CHECK(json["checks"][0]["ok"] == false);
  CHECK(json["findings"][0]["id"] == "check-mismatch");
  CHECK(json["findings"][0]["severity"] == "fault");
}

TEST_CASE("compare's JSON gives a reason for what it ignores, and hides passwords") {
  const Layout layout = small_layout();
  const Comparison comparison{false,
                              {{0x00, 0x15, 0x16, {}, "it ticks"},
                               {0x10, 0x40, std::nullopt, {"floppy_a"}, ""},
                               {0x38, 0x11, 0x22, {"word"}, ""}},
                              Lost::settings};
  CHECK(to_line(compare_json(comparison, layout)) ==
        R"({"equal":false,"lost":"settings","differences":[)"
        R"({"at":0,"wanted":21,"found":22,"fields":[],"ignored":"it ticks"},)"
        R"({"at":16,"wanted":64,"found":null,"fields":["floppy_a"],"ignored":null},)"
        R"({"at":56,"wanted":null,"found":null,"fields":["word"],"ignored":null}]})");
}

TEST_CASE("identify's JSON ranks the candidates") {
  Identification found;
  found.candidates = {{"at", 16.5, "its sum holds"}, {"crc+slots-19", 0, "nothing"}};
  found.clear = "at";
  const Json json = identify_json(found);
  CHECK(to_line(json["candidates"]) == R"([{"layout":"at","score":16.5,"why":"its sum holds"},)"
                                       R"({"layout":"crc+slots-19","score":0.0,"why":"nothing"}])");
  CHECK(json["layout"] == "at");
}

TEST_CASE("a line of JSON is safe on a terminal") {
  // U+202E turns the reading direction around; C3 alone is no UTF-8.
  CHECK(to_line(Json("a\xE2\x80\xAE"
                     "b\x1b")) == R"("a\u202eb\u001b")");
  CHECK(to_line(Json("\xC3")) == R"("\ufffd")");
}

TEST_CASE("a code without a meaning has no value, but is known") {
  const Shown shown(with_bytes(at_64_image(), {{0x10, 0x90}}));
  const Json field = show_json(shown.card())["fields"][0];
  CHECK(field["value"].is_null());
  CHECK(field["text"] == "code 9");
  CHECK(field["known"] == true);
}
