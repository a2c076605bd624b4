#include <catch2/catch.hpp>
#include <string>

#include "layout/codec.h"
#include "layout/made_up.h"

using namespace rtcmend;

namespace {

Field one(const std::string& rest) {
  return load(fields(field(rest))).fields.at(0);
}

Image zeros() {
  return Image(std::vector<std::uint8_t>(64, 0));
}

/// What is said of the words as a value, and what would be legal.
std::string answer(const Field& field, std::string_view words) {
  try {
    parse_value(field, words);
  } catch (const Error& error) {
    return error.message() + " / " + error.remedy();
  }
  return "accepted";
}

}  // namespace

TEST_CASE("every word for yes and for no is understood") {
  const Field flag = one(R"("at": "10", "bits": [0, 0], "flag": {})");
  for (const char* yes : {"yes", "on", "true", "1", " YES "})
    CHECK(parse_value(flag, yes) == Value(true));
  for (const char* no : {"no", "off", "false", "0", "Off"})
    CHECK(parse_value(flag, no) == Value(false));
  CHECK(answer(flag, "2") == "\"2\": it takes yes or no / legal: yes or no");
}

TEST_CASE("a word is no number") {
  const Field size = one(R"("at": "10", "number": {"unit": "KiB", "scale": 64})");
  CHECK(answer(size, "plenty") ==
        "\"plenty\": it takes a number / legal: 0-16320 in steps of 64 KiB");
  CHECK(answer(size, "KiB") == "\"KiB\": it takes a number / legal: 0-16320 in steps of 64 KiB");
  CHECK(answer(size, "100") ==
        "\"100\": 100 is not a multiple of 64 / legal: 0-16320 in steps of 64 KiB");
}

TEST_CASE("a range of one value is told as that value") {
  const Field fixed = one(R"("at": "10", "number": {"range": [7, 7]})");
  CHECK(answer(fixed, "8") == "\"8\": 8 is not among 7 / legal: 7");
}

TEST_CASE("bytes take exactly their hex digits") {
  const Field bytes = one(R"("at": "20-21", "bytes": {})");
  Image image = zeros();
  write_field(bytes, parse_value(bytes, "a55A"), image);
  CHECK(image[0x20] == 0xA5);
  CHECK(image[0x21] == 0x5A);
  CHECK(read_field(bytes, image).text == "A55A");
  const std::string refused = ": it takes 4 hex digits / legal: 4 hex digits";
  CHECK(answer(bytes, "A5") == "\"A5\"" + refused);
  CHECK(answer(bytes, "A55AA5") == "\"A55AA5\"" + refused);
  CHECK(answer(bytes, "A5G0") == "\"A5G0\"" + refused);
  CHECK(illegal_because(bytes, std::int64_t{0xA55A}) == "it takes 4 hex digits");
}

TEST_CASE("text takes plain characters that fit") {
  const Field text = one(R"("at": "20-22", "text": {})");
  CHECK(parse_value(text, "AB") == Value("AB"));
  const std::string refused = "it takes up to 3 plain characters";
  CHECK(answer(text, "ABCD") == "\"ABCD\": " + refused + " / legal: up to 3 plain characters");
  CHECK(illegal_because(text, "A\t") == refused);
  CHECK(illegal_because(text, "\xC3\xA9") == refused);
  CHECK(illegal_because(text, "A\x7F") == refused);
  CHECK(illegal_because(text, true) == refused);
}

TEST_CASE("bytes that are no plain text are told as such, with what they are") {
  const Field text = one(R"("at": "20-21", "text": {})");
  Image image = zeros();
  image.set(0x20, 'A');
  image.set(0x21, 0x07);
  const FieldReading reading = read_field(text, image);
  CHECK_FALSE(reading.legal);
  CHECK(reading.text == "not text");
  CHECK(reading.problem == "4107 is not plain text");
}

TEST_CASE("a field that is only shown is not set") {
  const Field shown = one(R"("at": "10", "number": {}, "read_only": true)");
  Image image = zeros();
  image.set(0x10, 7);
  CHECK(read_field(shown, image).value == Value(7));
  CHECK_THROWS_WITH(write_field(shown, 8, image),
                    Catch::Contains("it is shown for information and is not set by hand"));
  CHECK(image[0x10] == 7);
}

TEST_CASE("an escape code whose other byte is unknown leaves the value unknown") {
  const Field type = one(R"("at": "12", "bits": [7, 4], "number": {}, )"
                         R"("escape": {"when": 15, "at": "19", "range": [16, 47]})");
  Image image = zeros();
  image.set(0x12, 0xF0);
  image.forget(0x19);
  CHECK(read_field(type, image).text == "unknown");
  image.set(0x19, 47);
  CHECK(read_field(type, image).value == Value(47));
  image.set(0x19, 48);
  CHECK(read_field(type, image).problem ==
        "code 15 says that the value is at 19h, where 48 is not among 16-47");
  image.set(0x12, 0x20);
  CHECK(read_field(type, image).value == Value(2));
}

TEST_CASE("an escape code below the highest one is not a value either") {
  const Field type = one(R"("at": "12", "bits": [7, 4], "number": {}, )"
                         R"("escape": {"when": 0, "at": "19", "range": [16, 47]})");
  CHECK(parse_value(type, "15") == Value(15));
  CHECK(answer(type, "0") == "\"0\": 0 is not among 0-15 or 16-47 / legal: 0-15 or 16-47");
}

TEST_CASE("decimal digits are read up to as many as there are") {
  const Field digits = one(R"("at": "20-21", "order": "low-first", "bcd": {})");
  Image image = zeros();
  write_field(digits, 1987, image);
  CHECK(image[0x20] == 0x87);
  CHECK(image[0x21] == 0x19);
  CHECK(answer(digits, "10000") == "\"10000\": 10000 is not among 0-9999 / legal: 0-9999");
  CHECK(answer(digits, "-1") == "\"-1\": -1 is not among 0-9999 / legal: 0-9999");
}

TEST_CASE("a code without a name has no meaning, and no value is told as unknown") {
  const Field choice = one(R"("at": "10", "bits": [1, 0], "choice": {"0": "off", "1": "on"})");
  Image image = zeros();
  image.set(0x10, 2);
  CHECK(read_field(choice, image).text == "code 2");
  CHECK(read_field(choice, image).problem == "code 2 has no meaning here");
  CHECK(illegal_because(choice, 1) == "it takes one of its names");
  CHECK(to_text(choice, Value()) == "unknown");
}
