#include <catch2/catch.hpp>

#include "forms/samples.h"

using namespace rtcmend;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

struct Sample {
  std::string content;
  std::vector<Form> forms;
};

}  // namespace

TEST_CASE("a content is known by its looks") {
  const std::vector<Sample> samples{
      {std::string(64, '\0'), {Form::raw}},
      {std::string(114, '\xFF'), {Form::raw}},
      {std::string(64, ' '), {Form::raw}},
      {std::string(77, '\0'), {Form::raw}},
      {"00000000  21 00 58 00  |!.X.|\n", {Form::hex}},
      {"00000000: 2100 5800  !.X.\n", {Form::hex}},
      {"00000000: 7b30 7d3d  {0}=\n", {Form::hex}},
      {"1234:0100  21 00 58 00-05   !.X..\n", {Form::hex}},
      {"0x21, 0x00, 0x58\n", {Form::hex}},
      {"21h 00h 58h\n", {Form::hex}},
      {"-o 70 10\n-i 71\n40\n", {Form::hex}},
      {"C:\\>debug\n-d 100\n1234:0100  21 00\n", {Form::hex}},
      {"# mine\n\n10: 40 00 ??\n", {Form::hex}},
      {"10: 40 00 F0 00 41 80 02 80 01 27 00 00 00 00 00 00 =48\n", {Form::rows}},
      {"# mine\n10: 4O 00 F0 00 41 80 02 80 01 27 00 00 00 00 00 00 =4S\n", {Form::rows}},
      {":0300300002337A1E\r\n:00000001FF\r\n", {Form::intel_hex}},
      {"\n:00000001FF\n", {Form::intel_hex}},
      {"\xEF\xBB\xBF:00000001FF\n", {Form::intel_hex}},
      {":x00000001FF\n", {}},
      {"Sx00600004844521B\n", {}},
      {"010: 40 00 F0 00 41 80 02 80 01 27 00 00 00 00 00 00 =48\n", {Form::rows}},
      {"10: 40 00 F0 00 41 80 02 80 01 27 00 00 00 00 00 00 =048\n", {Form::rows}},
      {"10: 40 00 F0 00 41 80 02 80 01 27 00 00 00 00 00 00 =0048\n", {Form::hex}},
      {"S00600004844521B\nS9030000FC\n", {Form::s_record}},
      {"s1130000285f245f2212226a000424290008237c2a\n", {Form::s_record}},
      {"unsigned char x[] = {\n 0x21, 0x00 };\n", {Form::c_array}},
      {"/* dump */ const uint8_t c[] PROGMEM = { /* 00 */ 33 };\n", {Form::c_array}},
      {"{ 0x21, 0x00 }", {Form::c_array}},
      {"\xEF\xBB\xBF {\n \"rtcmend\": 1}", {Form::json}},
      {"[1, 2]", {}},
      {"{}", {Form::json}},
      {R"({"bytes": []})", {Form::json}},
      {R"(A"00")", {}},
      {"x={0}", {Form::c_array}},
      {" \n\t ", {}},
      {"Dear friend, here is my dump.\n", {}},
      {std::string(128, '5'), {Form::hex, Form::raw}},
  };
  for (const Sample& sample : samples) {
    CAPTURE(sample.content);
    CHECK(detect(sample.content) == sample.forms);
  }
}

TEST_CASE("a dump is read in the form it is written in, without being told") {
  for (const Form form : all_forms()) {
    CAPTURE(name(form));
    for (const Image& image : {sample_64(), sample_128()}) {
      const Dump dump = read_dump(write_dump(image, form), "dump");
      CHECK(dump.form == form);
      CHECK(dump.image == image);
    }
  }
}

TEST_CASE("text of 128 hex digits may be raw: both are named, and --form decides") {
  const std::string text(128, '5');
  CHECK(refusal(text) == "dump: it may be hex or raw, and they give different bytes");
  CHECK(remedy(text) == "Name the one that it is.");
  CHECK(read_dump(text, "dump", Form::raw).image.at(0) == 0x35);
  CHECK(read_dump(text, "dump", Form::hex).image.at(0) == 0x55);
}

TEST_CASE("hex text with a mistake is not taken for raw because it has 64 characters") {
  const std::string text = "10: 40 00 F0 00 41 80 02 80 01 27 00 00 00 00 0\n12: F0 11 22 33\n";
  REQUIRE(text.size() == 64);
  CHECK(refusal(text) == "dump:1: \"0\" has an odd number of hex digits");
  CHECK_THAT(remedy(text), Contains("Or take it as raw"));
}

TEST_CASE("a content of no known form is refused with the forms and sizes") {
  CHECK_THAT(refusal("Dear friend, here is my dump.\n"), StartsWith("dump: its form is not clear"));
  CHECK_THAT(
      remedy("Dear friend, here is my dump.\n"),
      Contains("raw, hex, rows, code-text, intel-hex, s-record, c-array, json") && Contains("114"));
  CHECK_THAT(refusal(std::string(77, '\0')), Contains("77 bytes"));
  CHECK(refusal("") == "dump: it is empty");
}

TEST_CASE("forms are named by their words, and the nearest is offered for another") {
  CHECK(form_named("raw") == Form::raw);
  CHECK(form_named("intel-hex") == Form::intel_hex);
  CHECK(name(Form::s_record) == "s-record");
  CHECK_THROWS_WITH(form_named("intel"), Contains("\"intel\" is no form of a dump"));
  try {
    form_named("jsn");
  } catch (const Error& error) {
    CHECK_THAT(error.remedy(), Contains("perhaps json"));
  }
}
