#include "layout/codec.h"

#include <catch2/catch.hpp>
#include <vector>

#include "base/error.h"
#include "layout/library.h"

using namespace rtcmend;

namespace {

const Layout& at_64() {
  static const Layout layout = built_in_layout("at");
  return layout;
}

Image zeros(std::size_t size = 64) {
  return Image(std::vector<std::uint8_t>(size, 0));
}

Image with(std::initializer_list<std::pair<Address, std::uint8_t>> bytes) {
  Image image = zeros();
  for (const auto& [at, value] : bytes) image.set(at, value);
  return image;
}

Value value_of(const char* field, const Image& image) {
  return read_field(at_64().need_field(field), image).value;
}

Image set(const char* field, const Value& value, Image image = zeros()) {
  write_field(at_64().need_field(field), value, image);
  return image;
}

std::string complaint(const char* field, std::string_view words) {
  try {
    parse_value(at_64().need_field(field), words);
  } catch (const Error& error) {
    return error.message() + " / " + error.remedy();
  }
  return "accepted";
}

}  // namespace

TEST_CASE("floppy byte 24h is a 1.2 MB and a 1.44 MB drive, 40h a single 1.44 MB drive") {
  // RBIL61, CMOS 10h.
  CHECK(value_of("floppy_a", with({{0x10, 0x24}})) == Value("1.2M"));
  CHECK(value_of("floppy_b", with({{0x10, 0x24}})) == Value("1.44M"));
  CHECK(value_of("floppy_a", with({{0x10, 0x40}})) == Value("1.44M"));
  CHECK(value_of("floppy_b", with({{0x10, 0x40}})) == Value("none"));
}

TEST_CASE("640 KB of base memory is 80h in 15h and 02h in 16h") {
  // RBIL61, CMOS 16h.
  CHECK(value_of("base_memory_kib", with({{0x15, 0x80}, {0x16, 0x02}})) == Value(640));
  const Image image = set("base_memory_kib", 640);
  CHECK(image[0x15] == 0x80);
  CHECK(image[0x16] == 0x02);
}

TEST_CASE("a single type 2 disk is 20h in 12h") {
  // RBIL61, CMOS 12h.
  CHECK(value_of("disk_0_type", with({{0x12, 0x20}})) == Value(2));
  CHECK(set("disk_0_type", 2)[0x12] == 0x20);
}

TEST_CASE("a type nibble of F sends the reader to the other byte") {
  // RBIL61 C0014, C0020; the pairing of 39 with 40 MB is common practice, no source.
  CHECK(value_of("disk_0_type", with({{0x12, 0xF0}, {0x19, 0x27}})) == Value(39));
  const Image image = set("disk_0_type", 39);
  CHECK(image[0x12] == 0xF0);
  CHECK(image[0x19] == 0x27);
  const Image back = set("disk_0_type", 2, image);
  CHECK(back[0x12] == 0x20);
  CHECK(back[0x19] == 0x00);
}

TEST_CASE("the second disk's nibble leaves the first one alone") {
  const Image image = set("disk_1_type", 47, set("disk_0_type", 39));
  CHECK(image[0x12] == 0xFF);
  CHECK(image[0x19] == 0x27);
  CHECK(image[0x1A] == 0x2F);
}

TEST_CASE("a nibble of F without a type in the other byte is not legal") {
  const FieldReading reading =
      read_field(at_64().need_field("disk_0_type"), with({{0x12, 0xF0}, {0x19, 0x07}}));
  CHECK_FALSE(reading.legal);
  CHECK(reading.value == Value());
  CHECK(reading.problem == "code 15 says that the value is at 19h, where 7 is not among 16-255");
}

TEST_CASE("type 15 is the escape mark and never a type") {
  CHECK(complaint("disk_0_type", "15") ==
        "\"15\": 15 is not among 0-14 or 16-255 / legal: 0-14 or 16-255");
  CHECK(complaint("disk_0_type", "256") ==
        "\"256\": 256 is not among 0-14 or 16-255 / legal: 0-14 or 16-255");
}

TEST_CASE("the floppy count is stored as one less and counts only while a floppy is fitted") {
  // RBIL61 C0019.
  const FieldReading two = read_field(at_64().need_field("floppy_count"), with({{0x14, 0x41}}));
  CHECK(two.value == Value(2));
  CHECK(two.in_use);
  const FieldReading none = read_field(at_64().need_field("floppy_count"), with({{0x14, 0x40}}));
  CHECK_FALSE(none.in_use);
}

TEST_CASE("the century is two decimal digits") {
  CHECK(value_of("century", with({{0x32, 0x20}})) == Value(20));
  CHECK(set("century", 19)[0x32] == 0x19);
  CHECK_FALSE(read_field(at_64().need_field("century"), with({{0x32, 0x2A}})).legal);
  CHECK_FALSE(read_field(at_64().need_field("century"), with({{0x32, 0x21}})).legal);
}

TEST_CASE("words, units and switches are read as people write them") {
  const Layout& at = at_64();
  CHECK(parse_value(at.need_field("floppy_a"), "1.44m") == Value("1.44M"));
  CHECK(parse_value(at.need_field("base_memory_kib"), "640 KiB") == Value(640));
  CHECK(parse_value(at.need_field("base_memory_kib"), "640kib") == Value(640));
  CHECK(parse_value(at.need_field("coprocessor"), "on") == Value(true));
  CHECK(parse_value(at.need_field("coprocessor"), "No") == Value(false));
  CHECK(complaint("coprocessor", "maybe") == "\"maybe\": it takes yes or no / legal: yes or no");
  CHECK(complaint("floppy_a", "1.45") ==
        "\"1.45\": that is not one of its values / legal: none, 360K, 1.2M, 720K, 1.44M, 2.88M; "
        "did you mean 1.2M or 1.44M?");
}

TEST_CASE("a field with an unknown byte is unknown, not zero") {
  Image image = zeros();
  image.forget(0x16);
  const FieldReading reading = read_field(at_64().need_field("base_memory_kib"), image);
  CHECK_FALSE(reading.known);
  CHECK(reading.value == Value());
  CHECK(reading.text == "unknown");
}

TEST_CASE("half of an unknown byte cannot be set, a whole one can") {
  Image image(std::size_t{64});
  CHECK_THROWS_AS(write_field(at_64().need_field("floppy_a"), Value("1.44M"), image), Error);
  write_field(at_64().need_field("base_memory_kib"), 640, image);
  CHECK(image.at(0x15) == 0x80);
}

TEST_CASE("passwords are told as set or not set, and stay as they are") {
  const Layout crc = built_in_layout("crc+slots-19");
  const Field& area = crc.need_field("password_area");
  CHECK(read_field(area, zeros()).text == "not set");
  CHECK(read_field(area, with({{0x3A, 0x1E}})).text == "set");
  Image image = zeros();
  CHECK_THROWS_AS(write_field(area, Value("not set"), image), Error);
  // One bit of 13h, beside others that are no password.
  const Field& power_on = crc.need_field("power_on_password");
  CHECK(read_field(power_on, with({{0x13, 0xFE}})).text == "not set");
  CHECK(read_field(power_on, with({{0x13, 0x01}})).text == "set");
}
