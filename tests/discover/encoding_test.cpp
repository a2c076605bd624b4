#include "discover/encoding.h"

#include <catch2/catch.hpp>

#include "layout/field.h"

using namespace rtcmend;

namespace {

struct Stored {
  std::string value;
  std::vector<std::pair<Address, std::uint8_t>> bytes;
};

std::vector<Bit> whole(std::initializer_list<Address> bytes) {
  std::vector<Bit> bits;
  for (const Address at : bytes)
    for (std::uint8_t bit = 8; bit-- > 0;) bits.push_back({at, bit});
  return bits;
}

/// What find_encoding() says of values that are stored so, with no bit free beside those that
/// moved.
Encoding encoding_of(const std::vector<Bit>& moved, const std::vector<Stored>& stored) {
  std::vector<Image> images;
  for (const Stored& one : stored) {
    Image& image = images.emplace_back(std::vector<std::uint8_t>(64, 0));
    for (const auto& [at, byte] : one.bytes) image.set(at, byte);
  }
  std::vector<Sample> samples;
  for (std::size_t i = 0; i < stored.size(); ++i) samples.push_back({stored[i].value, &images[i]});
  return find_encoding(moved, samples, {std::vector(64, std::vector<bool>(8, false))});
}

using Kind = Encoding::Kind;

}  // namespace

TEST_CASE("two values make a number only where the line is a natural one") {
  const std::vector<Bit> bits = whole({0x20});
  CHECK(encoding_of(bits, {{"0", {}}, {"200", {{0x20, 200}}}}).kind == Kind::number);
  // One more than is stored: a count that begins with 1.
  CHECK(encoding_of(bits, {{"1", {}}, {"201", {{0x20, 200}}}}).kind == Kind::number);
  // Three times and one more is a line as well, but no reason to believe in it.
  CHECK(encoding_of(bits, {{"1", {}}, {"601", {{0x20, 200}}}}).kind == Kind::choice);
  CHECK(encoding_of(bits, {{"1", {}}, {"601", {{0x20, 200}}}, {"4", {{0x20, 1}}}}).kind ==
        Kind::number);
}

TEST_CASE("values that lie on no line, or on a falling or too steep one, are codes") {
  const std::vector<Bit> bits = whole({0x20});
  CHECK(encoding_of(bits, {{"0", {}}, {"5", {{0x20, 2}}}, {"9", {{0x20, 4}}}}).kind ==
        Kind::choice);
  CHECK(encoding_of(bits, {{"255", {}}, {"0", {{0x20, 255}}}}).kind == Kind::choice);
  CHECK(encoding_of(bits, {{"0", {}}, {"16711680", {{0x20, 255}}}}).kind == Kind::number);
  CHECK(encoding_of(bits, {{"0", {}}, {"16711935", {{0x20, 255}}}}).kind == Kind::choice);
}

TEST_CASE("one byte for two values is no number") {
  CHECK(encoding_of(whole({0x20}), {{"10", {{0x20, 7}}}, {"20", {{0x20, 7}}}}).kind ==
        Kind::choice);
}

TEST_CASE("numbers of different units are codes") {
  CHECK(encoding_of(whole({0x20}), {{"1 KiB", {{0x20, 1}}}, {"2 MiB", {{0x20, 2}}}}).kind ==
        Kind::choice);
}

TEST_CASE("a second byte that follows another line is no copy") {
  const std::vector<Bit> both = whole({0x20, 0x30});
  const auto kind_with = [&](std::uint8_t for_10, std::uint8_t for_20, std::uint8_t for_40) {
    return encoding_of(both, {{"10", {{0x20, 10}, {0x30, for_10}}},
                              {"20", {{0x20, 20}, {0x30, for_20}}},
                              {"40", {{0x20, 40}, {0x30, for_40}}}});
  };
  const Encoding copied = kind_with(10, 20, 40);
  CHECK(copied.kind == Kind::number);
  REQUIRE(copied.copies.size() == 1);
  CHECK(copied.copies[0] == whole({0x30}));
  CHECK(kind_with(11, 21, 41).kind == Kind::choice);        // one more
  CHECK(kind_with(5, 10, 20).kind == Kind::choice);         // half
  CHECK(kind_with(0x10, 0x20, 0x40).kind == Kind::choice);  // decimal digits
  CHECK(kind_with(3, 1, 2).kind == Kind::choice);
}

TEST_CASE("a quantity is a whole number and perhaps a unit") {
  const auto number_of = [](std::string_view text) { return parse_quantity(text)->number; };
  const auto unit_of = [](std::string_view text) { return parse_quantity(text)->unit; };
  CHECK(number_of("640") == 640);
  CHECK(unit_of("640").empty());
  CHECK(number_of(" 384K ") == 384);
  CHECK(unit_of(" 384K ") == "K");
  CHECK(unit_of("640 KiB") == "KiB");
  CHECK(number_of("-5 ms") == -5);
  CHECK(unit_of("50%") == "%");
  for (const char* text : {"", "KiB", "-", "1.44M", "12:30", "7 of 9", "3 [", "3 {",
                           "5 unreasonablylongwordforaunit"}) {
    INFO(text);
    CHECK_FALSE(parse_quantity(text));
  }
}
