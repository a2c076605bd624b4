#include "layout/load.h"

#include <catch2/catch.hpp>
#include <map>
#include <string>

#include "base/error.h"
#include "layout/codec.h"
#include "layout/made_up.h"

using namespace rtcmend;

TEST_CASE("a field may be split over bits of several bytes") {
  // RBIL61's block E keeps cylinders so: the low byte alone, the high nibble beside the heads.
  const Layout layout = load(fields(field(
      R"("pieces": [{"at": "1E", "bits": [3, 0]}, {"at": "1D"}], "number": {"unit": "cylinders"})")));
  Image image(std::vector<std::uint8_t>(64, 0));
  image.set(0x1E, 0xF3);
  image.set(0x1D, 0xD1);
  CHECK(read_field(layout.fields[0], image).value == Value(977));  // 3D1h
  write_field(layout.fields[0], 1023, image);
  CHECK(image[0x1E] == 0xF3);
  CHECK(image[0x1D] == 0xFF);
}

TEST_CASE("scale and offset turn stored counts into amounts") {
  const Layout layout = load(fields(
      field(R"("at": "34-35", "order": "low-first", "number": {"unit": "KiB", "scale": 64})")));
  Image image(std::vector<std::uint8_t>(64, 0));
  write_field(layout.fields[0], 16384, image);
  CHECK(image[0x34] == 0x00);
  CHECK(image[0x35] == 0x01);
  CHECK_THROWS_AS(write_field(layout.fields[0], 100, image), Error);
}

TEST_CASE("text and bytes are stored in address order") {
  const Layout layout = load(fields(field(R"("at": "20-23", "text": {})")));
  Image image(std::vector<std::uint8_t>(64, 0xEE));
  write_field(layout.fields[0], Value("AB"), image);
  CHECK(image[0x20] == 'A');
  CHECK(image[0x21] == 'B');
  CHECK(image[0x22] == 0);
  CHECK(read_field(layout.fields[0], image).value == Value("AB"));
}

TEST_CASE("a layout that cannot be is refused with its place") {
  CHECK(complaint("") == "accepted");
  CHECK(complaint(fields(field(R"("at": "10", "number": {}, "flag": {})"))) ==
        "mine.json at /fields/0: it says more than one of number, bcd, choice, flag, bytes, text, "
        "private");
  CHECK(
      complaint(check(
          R"("sum": {"width": 16}, "over": ["10-2D"], "stored": {"at": "7F", "order": "high-first"})")) ==
      "mine.json at /checks/0: c is at 80h, past the end of a chip of 128 bytes");
  CHECK(complaint(fields(field(R"("at": "0D", "number": {})"))) ==
        "mine.json at /fields/0: f is at 0Dh, which belongs to the clock");
  CHECK(complaint(fields(field(R"("at": "10-11", "number": {})"))) ==
        "mine.json at /fields/0: a value over several bytes needs its \"order\"");
  CHECK(complaint(fields(field(R"("at": "10", "bits": [0, 4], "number": {})"))) ==
        "mine.json at /fields/0: bits are given highest first: [7, 4]");
  CHECK(complaint(fields(field(R"("at": "10", "bits": [3, 0], "flag": {})"))) ==
        "mine.json at /fields/0: a flag is one bit");
  CHECK(complaint(fields(field(R"("at": "10", "number": {"range": [0, 9]}, "default": 10)"))) ==
        "mine.json at /fields/0: its default is not legal: 10 is not among 0-9");
  CHECK(complaint(fields(
            field(R"("at": "10", "flag": {}, "bits": [0, 0], "follows": {"any": ["g"]})"))) ==
        "mine.json at /fields/0: it follows \"g\", which is not a field");
}

TEST_CASE("two fields cannot claim one bit") {
  const std::string two =
      field(R"("at": "10", "bits": [7, 4], "number": {})") +
      R"(, {"id": "g", "label": "G", "group": "g", "source": "made up for the test",)"
      R"( "at": "10", "bits": [4, 0], "number": {}})";
  CHECK(complaint(fields(two)) ==
        "mine.json at /fields/1: g claims bit 4 of 10h, which f has already");
}

TEST_CASE("a check cannot cover its own result, the clock, or what is not there") {
  const std::string stored =
      R"(, "sum": {"width": 16}, "stored": {"at": "2E", "order": "high-first"})";
  CHECK(complaint(check(R"("over": ["10-2D"])" + stored)) == "accepted");
  CHECK(complaint(check(R"("over": ["10-2E"])" + stored)) ==
        "mine.json at /checks/0: it covers 2Eh, where its own result is stored");
  CHECK(complaint(check(R"("over": ["0D-2D"])" + stored)) ==
        "mine.json at /checks/0: it covers clock bytes, which change by themselves");
  CHECK(load(check(R"("over": ["30-40"])" + stored)).size == 128);
  CHECK(complaint(check(R"("over": ["10-12", "12-14"])" + stored)) ==
        "mine.json at /checks/0: it covers 12h twice");
}

TEST_CASE("a circle of includes is named, and so is a part that is not there") {
  const std::map<std::string, std::string> circle = {{"parts/a", R"({"includes": ["parts/b"]})"},
                                                     {"parts/b", R"({"includes": ["parts/a"]})"}};
  CHECK(complaint(R"(, "includes": ["parts/a"])", circle) ==
        "parts/b at /includes: \"parts/a\" includes itself: parts/a > parts/b");
  CHECK(complaint(R"(, "includes": ["parts/none"])") ==
        "mine.json at /includes: there is no part \"parts/none\"");
}

TEST_CASE("a part that several parts include is read once") {
  const std::map<std::string, std::string> diamond = {
      {"parts/a", R"({"includes": ["parts/c"]})"},
      {"parts/b", R"({"includes": ["parts/c"]})"},
      {"parts/c", "{" + fields(field(R"("at": "10", "number": {})")).substr(2) + "}"}};
  CHECK(load(R"(, "includes": ["parts/a", "parts/b"])", diamond).fields.size() == 1);
}

TEST_CASE("parts that include each other many times over are read once each") {
  std::map<std::string, std::string> wide;
  const auto name = [](int level, int number) {
    return "parts/" + std::string(1, static_cast<char>('a' + level)) + std::to_string(number);
  };
  for (int level = 0; level < 6; ++level)
    for (int number = 0; number < 16; ++number) {
      std::string names;
      for (int below = 0; level < 5 && below < 16; ++below)
        names += (below == 0 ? "\"" : ", \"") + name(level + 1, below) + "\"";
      wide[name(level, number)] = "{\"includes\": [" + names + "]}";
    }
  // Six levels of sixteen would be 16,777,216 readings; there are 96 parts, and 64 may be read.
  CHECK(complaint(R"(, "includes": ["parts/a0"])", wide).find("more than 64 parts") !=
        std::string::npos);
}

TEST_CASE("parts are nested to a depth that no layout needs") {
  std::map<std::string, std::string> deep;
  for (int level = 0; level < 20; ++level)
    deep["parts/p" + std::to_string(level)] =
        "{\"includes\": [\"parts/p" + std::to_string(level + 1) + "\"]}";
  CHECK(complaint(R"(, "includes": ["parts/p0"])", deep).find("nested more than 8 deep") !=
        std::string::npos);
}

TEST_CASE("a wrong type is named with its JSON path by the schema") {
  CHECK(
      complaint(fields(field(R"("at": 16, "number": {})"))) ==
      "mine.json at /fields/0/at: the layout schema wants an address such as 2E or a range such as "
      "10-2D here, not 16");
}

TEST_CASE("an unknown key is named with its place and the nearest that is known there") {
  const auto remedy = [](const std::string& members) -> std::string {
    try {
      load(members);
    } catch (const Error& error) {
      return error.remedy();
    }
    return "accepted";
  };
  const std::string field_key = fields(field(R"("att": "10", "number": {})"));
  CHECK(complaint(field_key) ==
        "mine.json at /fields/0: the layout schema has no key \"att\" here");
  CHECK(remedy(field_key) == "at");
  const std::string inner_key = fields(field(R"("at": "10", "number": {"unti": "KiB"})"));
  CHECK(complaint(inner_key) ==
        "mine.json at /fields/0/number: the layout schema has no key \"unti\" here");
  CHECK(remedy(inner_key) == "unit");
  CHECK(remedy(R"(, "feilds": [])") == "fields");
  CHECK(remedy(R"(, "colour": "red")").find("after_composing, checks, class, drive_types") == 0);
}

TEST_CASE("JSON that is none is refused with its line, a key given twice by its name") {
  const auto refuse_text = [](std::string_view text) -> std::string {
    try {
      load_layout(text, "bad.json", [](std::string_view) { return std::string_view{}; });
    } catch (const Error& error) {
      return error.what();
    }
    return "accepted";
  };
  CHECK(refuse_text("{\n  \"id\": \"x\"\n  \"title\"}") == "bad.json:3: it is not valid JSON");
  CHECK(refuse_text(R"({"id": "x", "id": "y"})") == "bad.json: the key \"id\" is given twice");
  CHECK(refuse_text(std::string(100, '[') + std::string(100, ']')) ==
        "bad.json: it is nested deeper than 32 levels");
  CHECK(refuse_text(R"({"title": "x"})") == "bad.json: a layout needs the key \"layout\"");
}
