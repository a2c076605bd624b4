#include "judge/compare.h"

#include <catch2/catch.hpp>

#include "base/error.h"
#include "examining.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

Comparison compared(const Image& found, const Image& wanted = at_64_image()) {
  return compare(wanted, found, layout_of("at"));
}

Image found_with(std::initializer_list<std::pair<Address, std::uint8_t>> bytes) {
  return with_bytes(at_64_image(), bytes);
}

/// The reason at the only byte that differs; "(none)" or "(many)" when it is not one.
std::string only_reason(const Comparison& comparison) {
  if (comparison.differences.empty()) return "(none)";
  if (comparison.differences.size() > 1) return "(many)";
  return comparison.differences.front().ignored;
}

/// A sum at 20 over 10-13, whose 11 is volatile, and an xor at 22 over 20-21.
Layout layout_with_volatile_byte() {
  Layout layout;
  layout.id = "example";
  Field counter;
  counter.id = "starts";
  counter.bits = {{0x11, 7, 0}};
  counter.is_volatile = true;
  layout.fields = {counter};
  Check sum{"sum-10-13", "", SumRule{}, {{{0x10, 0x13}, {}}}, 0x20, Order::high_first, {}};
  Check over{"xor-20-21", "", XorRule{}, {{{0x20, 0x21}, {}}}, 0x22, Order::high_first, {}};
  layout.checks = {over, sum};
  layout.sealing = {1, 0};
  return layout;
}

/// 10-13 = 01, starts, 00, 00; their sum and its xor typed in by the caller.
Image counted(std::uint8_t starts, std::uint8_t sum, std::uint8_t xored) {
  return with_bytes(Image(std::vector<std::uint8_t>(64, 0)),
                    {{0x10, 0x01}, {0x11, starts}, {0x21, sum}, {0x22, xored}});
}

}  // namespace

TEST_CASE("an image equals itself") {
  CHECK(compared(at_64_image()).equal);
  CHECK(compared(at_64_image()).differences.empty());
}

TEST_CASE("a byte that was written and reads back otherwise matters, with its fields named") {
  const Comparison comparison = compared(found_with({{0x10, 0x44}}));
  CHECK_FALSE(comparison.equal);
  REQUIRE(comparison.differences.size() == 1);
  const Difference& difference = comparison.differences[0];
  CHECK(difference.at == 0x10);
  CHECK(difference.wanted == 0x40);
  CHECK(difference.found == 0x44);
  CHECK(difference.fields == std::vector<std::string>{"floppy_b"});
  CHECK(difference.ignored.empty());
}

TEST_CASE("a stored check byte that differs names its check") {
  const Comparison comparison = compared(found_with({{0x2F, 0x68}}));
  REQUIRE(comparison.differences.size() == 1);
  CHECK(comparison.differences[0].fields == std::vector<std::string>{"sum-10-2d"});
  CHECK_FALSE(comparison.equal);
}

TEST_CASE("time, date and weekday are let tick while the wanted clock runs") {
  const Comparison comparison = compared(found_with({{0x00, 0x59},
                                                     {0x02, 0x31},
                                                     {0x04, 0x10},
                                                     {0x06, 5},
                                                     {0x07, 0x15},
                                                     {0x08, 6},
                                                     {0x09, 0x32}}));
  CHECK(comparison.equal);
  CHECK(comparison.differences.size() == 7);
  for (const Difference& difference : comparison.differences)
    CHECK(difference.ignored == "the clock is running");
}

TEST_CASE("the alarms do not tick") {
  CHECK_FALSE(compared(found_with({{0x05, 0x07}})).equal);
}

TEST_CASE("the time matters when the wanted clock is held or frozen") {
  // DS12885: divider 110 holds the chain, SET freezes the time bytes.
  const Image held = found_with({{0x0A, 0x66}});
  CHECK_FALSE(compared(with_bytes(held, {{0x02, 0x31}}), held).equal);
  const Image frozen = found_with({{0x0B, 0x82}});
  CHECK_FALSE(compared(with_bytes(frozen, {{0x02, 0x31}}), frozen).equal);
}

TEST_CASE("bits that no write can change do not matter") {
  // DS12885: all of C and D, bit 7 of A, the top bit of the seconds.
  CHECK(only_reason(compared(found_with({{0x0C, 0x40}}))) == "read only");
  CHECK(only_reason(compared(found_with({{0x0D, 0x00}}))) == "read only");
  CHECK(only_reason(compared(found_with({{0x0A, 0xA6}}))) ==
        "the bit that differs cannot be written");
  CHECK_FALSE(compared(found_with({{0x0A, 0xA0}})).equal);
  const Image held = found_with({{0x0A, 0x66}});
  CHECK(only_reason(compared(with_bytes(held, {{0x00, 0x80}}), held)) ==
        "the bit that differs cannot be written");
}

TEST_CASE("what the firmware writes at each start does not matter, the bits beside it do") {
  // RBIL61 C0005, C0034: 0Eh is the status of the last start; 33h has two such flags.
  CHECK(only_reason(compared(found_with({{0x0E, 0x04}}))) ==
        "the firmware changes it at each start");
  CHECK_FALSE(compared(found_with({{0x33, 0x01}})).equal);
}

TEST_CASE("a byte that one side does not know is not a difference that matters") {
  const Image ram_only = without(at_64_image(), {0x00, 0x0D});
  CHECK(compared(ram_only).equal);
  CHECK(compared(ram_only).differences.size() == 14);
  CHECK(compared(ram_only).differences[0].ignored == "unknown in the image found");
  CHECK(compared(at_64_image(), ram_only).differences[0].ignored == "unknown in the wanted image");
  CHECK(compared(ram_only, ram_only).differences.empty());
}

TEST_CASE("check bytes that follow a volatile byte do not matter, through a check over a check") {
  const Layout layout = layout_with_volatile_byte();
  const Comparison comparison = compare(counted(2, 3, 3), counted(5, 6, 6), layout);
  CHECK(comparison.equal);
  REQUIRE(comparison.differences.size() == 3);
  CHECK(comparison.differences[1].at == 0x21);
  CHECK(comparison.differences[1].ignored == "the check follows bytes that do not matter");
  CHECK(comparison.differences[2].at == 0x22);
  CHECK(comparison.differences[2].ignored == "the check follows bytes that do not matter");
}

TEST_CASE("check bytes matter when they do not fit their data") {
  const Layout layout = layout_with_volatile_byte();
  CHECK_FALSE(compare(counted(2, 3, 3), counted(5, 7, 7), layout).equal);
}

TEST_CASE("of 64 bytes against 128 the lower 64 are compared") {
  std::vector<std::uint8_t> bytes = at_64_bytes();
  bytes.resize(128, 0x55);
  CHECK(compare(at_64_image(), Image(bytes), layout_of("at")).equal);
  CHECK(compare(Image(bytes), at_64_image(), layout_of("at")).equal);
  bytes[0x15] = 0x00;
  CHECK(compare(Image(bytes), at_64_image(), layout_of("at")).differences.size() == 1);
}

TEST_CASE("bytes that the layout does not use may differ") {
  std::vector<std::uint8_t> bytes = at_64_bytes();
  bytes.resize(128, 0x55);
  const Image before(bytes), after = with_bytes(before, {{0x50, 0xAA}});
  const Comparison used = compare(before, after, layout_of("at"));
  CHECK(used.equal);
  REQUIRE(used.differences.size() == 1);
  CHECK(used.differences[0].ignored == "the layout does not use it");
  CHECK_FALSE(compare(before, after, layout_of("at+sum-40-7d")).equal);
}

TEST_CASE("an image that is too small for the layout is not compared") {
  const Image large(std::vector<std::uint8_t>(128, 0));
  CHECK_THROWS_WITH(
      compare(at_64_image(), large, layout_of("at+sum-40-7d")),
      "compare: the layout at+sum-40-7d needs 128 bytes, and one of the images has 64");
}

TEST_CASE("a clock that was reset is told from lost settings") {
  CHECK(compared(at_64_image()).lost == Lost::nothing);
  // The time ticks and the status of the last start is written anew: neither is a loss.
  CHECK(compared(found_with({{0x02, 0x31}, {0x0E, 0x80}})).lost == Lost::nothing);
  // 32h holds the century (RBIL61 CMOS 32h).
  CHECK(compared(found_with({{0x09, 0x80}, {0x32, 0x19}})).lost == Lost::clock);
  CHECK(compared(found_with({{0x0A, 0x06}})).lost == Lost::clock);
  CHECK(compared(found_with({{0x32, 0x19}, {0x20, 0x01}})).lost == Lost::settings);
}
