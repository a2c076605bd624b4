#include <catch2/catch.hpp>

#include "forms/samples.h"

using namespace rtcmend;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

const std::string sample_text = R"({
  "rtcmend": 1,
  "size": 64,
  "layout": "at",
  "note": "Kitchen \"tower\", 1 May",
  "bytes": [
    "21 00 58 00 05 00 05 15 02 94 26 02 50 80 00 00",
    "40 00 F0 00 41 80 02 80 01 27 00 00 00 00 00 00",
    "00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 9B",
    "80 01 19 00 41 42 20 43 20 7C 3E 23 3D 2E 2D 7F"
  ]
}
)";

std::string with(const std::string& old_piece, const std::string& new_piece) {
  std::string text = sample_text;
  const auto at = text.find(old_piece);
  REQUIRE(at != std::string::npos);
  return text.replace(at, old_piece.size(), new_piece);
}

std::string refused(const std::string& text) {
  return refusal(text, Form::json);
}

}  // namespace

TEST_CASE("the project's own JSON carries image, layout and note") {
  const Dump dump = read_dump(sample_text, "dump");
  CHECK(dump.form == Form::json);
  CHECK(dump.image == sample_64());
  CHECK(dump.layout == "at");
  CHECK(dump.note == "Kitchen \"tower\", 1 May");
}

TEST_CASE("JSON is written as it is read") {
  WriteOptions options;
  options.layout = "at";
  options.note = "Kitchen \"tower\", 1 May";
  CHECK(write_dump(sample_64(), Form::json, options) == sample_text);
}

TEST_CASE("JSON without layout and note has neither key") {
  const std::string text = write_dump(sample_64(), Form::json);
  CHECK_THAT(text, !Contains("layout") && !Contains("note"));
  const Dump dump = read_dump(text, "dump");
  CHECK(dump.layout.empty());
  CHECK(dump.note.empty());
}

TEST_CASE("JSON keeps unknown bytes unknown") {
  const Image image = ram_part_of(sample_128());
  const std::string text = write_dump(image, Form::json);
  CHECK_THAT(text, Contains("\"?? ?? ?? ?? ?? ?? ?? ?? ?? ?? ?? ?? ?? ?? 00 00\""));
  CHECK(read_dump(text, "dump").image == image);
}

TEST_CASE("JSON of another shape is refused with the path") {
  CHECK_THAT(refused(with("\"size\": 64", "\"size\": 65")), StartsWith("dump at /size: "));
  CHECK_THAT(refused(with("\"size\": 64", "\"size\": \"64\"")), StartsWith("dump at /size: "));
  CHECK_THAT(refused(with("\"size\": 64", "\"size\": 64.5")), StartsWith("dump at /size: "));
  CHECK_THAT(refused(with("\"size\": 64", "\"size\": 128")),
             StartsWith("dump at /bytes: 128 bytes are 8 rows, here are 4"));
  CHECK_THAT(refused(with("\"rtcmend\": 1", "\"rtcmend\": 2")), StartsWith("dump at /rtcmend: "));
  CHECK_THAT(refused(with("\"at\"", "64")), StartsWith("dump at /layout: "));
  CHECK_THAT(refused(with("\"note\": \"", "\"note\": null, \"x\": \"")), Contains("\"x\""));
  CHECK_THAT(refused(with("F0 00 41", "F0 41")),
             StartsWith("dump at /bytes/1: a row has 16 bytes, this one 15"));
  CHECK_THAT(refused(with("9B", "9G")), StartsWith("dump at /bytes/2: \"9G\" is not a byte"));
  CHECK_THAT(refused(with("9B", "9")), StartsWith("dump at /bytes/2: \"9\" is not a byte"));
  CHECK_THAT(refused(with("9B", "-1")), StartsWith("dump at /bytes/2: \"-1\" is not a byte"));
  CHECK_THAT(refused(with("\"bytes\": [", "\"bytes\": [ 5,")), StartsWith("dump at /bytes: "));
  CHECK_THAT(refused("[]"), StartsWith("dump: a dump in JSON is one object"));
  CHECK_THAT(refused("{}"), StartsWith("dump: the key \"rtcmend\" is missing"));
  CHECK_THAT(refused(R"({"rtcmend": 1, "size": 64})"), Contains("\"bytes\" is missing"));
  CHECK_THAT(refused(R"({"rtcmend": 1, "size": 64, "bytes": {}})"), StartsWith("dump at /bytes: "));
  CHECK_THAT(refused(R"({"rtcmend": 1, "size": 64, "bytes": [1, 2, 3, 4]})"),
             StartsWith("dump at /bytes/0: "));
}

TEST_CASE("an unknown key in JSON is refused with the nearest one") {
  CHECK_THAT(refused(with("\"layout\"", "\"layuot\"")), Contains("\"layuot\" means nothing here"));
  CHECK_THAT(remedy(with("\"layout\"", "\"layuot\""), Form::json), Contains("\"layout\""));
}

TEST_CASE("a key given twice in JSON is refused") {
  CHECK_THAT(refused(with("\"size\": 64", "\"size\": 64, \"size\": 64")), Contains("given twice"));
}

TEST_CASE("broken JSON is refused with its line") {
  CHECK_THAT(refused(with("\"size\": 64,", "\"size\": 64")), StartsWith("dump:4: "));
  CHECK_THAT(refused("{\"rtcmend\": 1"), Contains("not valid JSON"));
}
