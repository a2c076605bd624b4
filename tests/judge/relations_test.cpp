#include "judge/relations.h"

#include <catch2/catch.hpp>

#include "judge/made_up.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

/// Two drives, how many there are (never told as fewer than one), whether there is one, and a copy
/// of the first. 20h and 21h count only while bit 7 of 2Fh is set.
const Layout& drives() {
  static const Layout layout = made_up(
      R"("fields": [)" + field_entry("a", R"("at": "20", "choice": {"0": "none", "4": "1.44M"},
                          "when": {"at": "2F", "bits": [7, 7], "is": 1})") +
      "," + field_entry("b", R"("at": "21", "number": {"range": [0, 9]})") + "," +
      field_entry("count", R"("at": "22", "number": {},
                              "follows": {"count": ["a", "b"], "least": 1})") +
      "," + field_entry("any", R"("at": "23", "bits": [0, 0], "flag": {},
                            "follows": {"any": ["a", "b"]})") +
      "," +
      field_entry("copy", R"("at": "24", "number": {"range": [0, 9]}, "follows": {"same": "b"},
                             "when": {"at": "2E", "bits": [0, 0], "is": 0})") +
      R"(], "checks": [)" +
      check_entry("all", R"("xor": {}, "over": ["20-24"], "stored": {"at": "30"})") + "," +
      check_entry("some", R"("xor": {}, "over": ["21"], "stored": {"at": "31"})") + "," +
      check_entry("parts", R"("xor": {}, "over": ["24", "21"], "stored": {"at": "32"})") + "]");
  return layout;
}

Image with(std::uint8_t a, std::uint8_t b) {
  return with_bytes(at_64_image(), {{0x2F, 0x80}, {0x2E, 0x00}, {0x20, a}, {0x21, b}});
}

std::optional<Value> expected(const char* field, const Image& image) {
  return expected_value(drives().need_field(field), drives(), image);
}

}  // namespace

TEST_CASE("a count is of the leaders that are not zero, and never below its least") {
  CHECK(expected("count", with(4, 3)) == Value(2));
  CHECK(expected("count", with(4, 0)) == Value(1));
  CHECK(expected("count", with(0, 0)) == Value(1));
}

TEST_CASE("any says whether one of the leaders is not zero, same what its leader says") {
  CHECK(expected("any", with(0, 3)) == Value(true));
  CHECK(expected("any", with(0, 0)) == Value(false));
  CHECK(expected("copy", with(0, 3)) == Value(3));
}

TEST_CASE("nothing is expected of a field whose leader is unknown, without meaning or not in use") {
  CHECK(expected("a", with(4, 3)) == std::nullopt);  // follows none
  CHECK(expected("any", with(5, 3)) == std::nullopt);
  CHECK(expected("any", without(with(4, 3), {0x21, 0x21})) == std::nullopt);
  CHECK(expected("any", with_bytes(with(4, 3), {{0x2F, 0x00}})) == std::nullopt);
  CHECK(expected("copy", with_bytes(with(4, 3), {{0x2F, 0x00}})) == Value(3));
}

TEST_CASE("a field breaks its relation only where it is known and in use") {
  const auto breaks = [](const Image& image) {
    return breaks_relation(read_field(drives().need_field("copy"), image), drives(), image);
  };
  CHECK(breaks(with_bytes(with(4, 3), {{0x24, 0x04}})));
  CHECK_FALSE(breaks(with_bytes(with(4, 3), {{0x24, 0x03}})));
  CHECK_FALSE(breaks(with_bytes(with(4, 3), {{0x24, 0x04}, {0x2E, 0x01}})));
  CHECK_FALSE(breaks(without(with(4, 3), {0x24, 0x24})));
  CHECK_FALSE(breaks(without(with(4, 3), {0x21, 0x21})));
}

TEST_CASE("a copy is proven by the checks that cover both it and its original") {
  CHECK(checks_proving(drives().need_field("copy"), drives()) == std::vector<std::size_t>{0, 2});
  CHECK(checks_proving(drives().need_field("any"), drives()).empty());
  CHECK(checks_proving(drives().need_field("b"), drives()).empty());
}
