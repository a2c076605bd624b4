#include "deliver/keyboard_slips.h"

#include <catch2/catch.hpp>

#include "check/crc.h"

namespace rtcmend::test {

namespace {

using Bytes = std::vector<std::uint8_t>;

// A pair gives its first letter plus ten times its second, kept to a byte: "A0" is 41h + 10 * 30h
// = 221h, 21h.
const std::string letters = "A0B1C2D3";

std::uint16_t code(const Bytes& bytes) {
  return Crc(crc_models::ibm_3740)(bytes);
}

/// Whether the slips are found when the code that is wanted is that of these letters.
bool found_where_wanted_is(const std::string& slip) {
  return slips_are_found(0xFFFF, letters, code(decode_letters(slip)));
}

}  // namespace

TEST_CASE("letters are read in pairs, skipped pairs and all behind the end left out") {
  CHECK(decode_letters(letters) == Bytes{0x21, 0x2C, 0x37, 0x42});
  CHECK(decode_letters("A0B1C") == Bytes{0x21, 0x2C});
  CHECK(decode_letters("A0\r\nB1") == Bytes{0x21, 0x2C});
  CHECK(decode_letters("A0!1B1") == Bytes{0x21, 0x2C});
  // ":G" is 3Ah + 10 * 47h = 300h, 00h: the end.
  CHECK(decode_letters("A0:GB1") == Bytes{0x21});
}

TEST_CASE("a slip that would pass the code is noticed, whatever its kind") {
  CHECK(found_where_wanted_is("A0B1C2D3"));         // no slip comes to this
  CHECK_FALSE(found_where_wanted_is("0B1C2D3"));    // the first letter left out
  CHECK_FALSE(found_where_wanted_is("A0B1C2D"));    // the last one
  CHECK_FALSE(found_where_wanted_is("A0BB1C2D3"));  // one doubled
  CHECK_FALSE(found_where_wanted_is("A0B1C22D3"));
  CHECK_FALSE(found_where_wanted_is("A01BC2D3"));  // two swapped over a pair's edge
  CHECK_FALSE(found_where_wanted_is("A0B12CD3"));
  CHECK_FALSE(found_where_wanted_is("A0!1C2D3"));  // a pair skipped
  CHECK_FALSE(found_where_wanted_is("A0B1C2"));    // the end too early
  CHECK_FALSE(found_where_wanted_is(""));
}

TEST_CASE(
    "a skipped pair and an end two pairs early are noticed where nothing else comes to them") {
  const auto found = [](const std::string& slip) {
    return slips_are_found(0xFFFF, "AACCEEGG", code(decode_letters(slip)));
  };
  CHECK(found("AACCEEGG"));
  CHECK_FALSE(found("AA!CEEGG"));
  CHECK_FALSE(found("AACC"));
  CHECK_FALSE(found("AA"));
  CHECK_FALSE(found(""));
}

TEST_CASE("the code begins with that of the line before") {
  const std::uint16_t before = code({'x', 'y'});
  const auto continued = [](Bytes bytes) {
    bytes.insert(bytes.begin(), {'x', 'y'});
    return code(bytes);
  };
  CHECK(slips_are_found(before, letters, continued(decode_letters(letters))));
  CHECK_FALSE(slips_are_found(before, letters, continued(decode_letters("A0B1C2"))));
}

}  // namespace rtcmend::test
