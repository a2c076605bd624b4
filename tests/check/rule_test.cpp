#include "check/rule.h"

#include <catch2/catch.hpp>
#include <vector>

using namespace rtcmend;

namespace {

using Bytes = std::vector<std::uint8_t>;

// clang-format off
// 128 arbitrary bytes; the sum of each row beside it, added up by hand to 16469 = 4055h.
const Bytes chipful{
    0xA5, 0x4D, 0xCA, 0x18, 0x25, 0x30, 0xBB, 0x1D, 0x6D, 0x13, 0x2C, 0xDE, 0xD6, 0x23, 0x7B, 0x2E,  // 1581
    0xD9, 0x1E, 0x3F, 0x72, 0x1F, 0xCB, 0x19, 0x71, 0x17, 0x44, 0x94, 0xD6, 0x49, 0x3C, 0x9D, 0x5C,  // 1631
    0x34, 0x60, 0xBE, 0x31, 0x20, 0x1E, 0x69, 0xFE, 0xDA, 0xA0, 0xEE, 0xE8, 0xB9, 0x99, 0x7F, 0x5C,  // 2213
    0x7C, 0x29, 0x99, 0xFD, 0xAF, 0xE5, 0x93, 0x25, 0x3C, 0xD6, 0x54, 0xAF, 0x4D, 0xFA, 0xD7, 0x14,  // 2254
    0x27, 0xA0, 0xAE, 0xB3, 0xFE, 0xE9, 0x23, 0x2F, 0x8A, 0xF2, 0x21, 0x1F, 0x9E, 0xE4, 0x91, 0xC5,  // 2293
    0xB1, 0x0B, 0xEC, 0xB5, 0x56, 0x3B, 0xFC, 0x1E, 0x6F, 0x93, 0x42, 0x7E, 0xCB, 0xC8, 0xFE, 0x29,  // 2180
    0x55, 0xE5, 0xCD, 0x8E, 0x46, 0xDC, 0x8E, 0xD4, 0xB7, 0xC2, 0x76, 0x4D, 0x2A, 0x5A, 0x4D, 0x76,  // 2204
    0x77, 0x06, 0xF8, 0x5D, 0x86, 0x90, 0x02, 0x4A, 0xD6, 0xBD, 0xA3, 0x40, 0x1B, 0xE9, 0xC8, 0xCB,  // 2113
};
// clang-format on

SumRule sum(unsigned width, std::uint16_t start = 0, Sign sign = Sign::plain) {
  return {width, start, sign, std::nullopt};
}

}  // namespace

TEST_CASE("a plain sum of 128 bytes is kept to its width") {
  REQUIRE(chipful.size() == 128);
  CHECK(compute(sum(16), chipful) == 0x4055);
  CHECK(compute(sum(8), chipful) == 0x55);
}

TEST_CASE("a sum may start from a value, which counts before the sign") {
  CHECK(compute(sum(16, 0x1234), chipful) == 0x5289);
  CHECK(compute(sum(8, 0xAC), chipful) == 0x01);
  CHECK(compute(sum(16, 0x1234, Sign::negated), chipful) == 0xAD77);
}

TEST_CASE("a negated sum adds up to zero with the plain one, a complemented one to all ones") {
  CHECK(compute(sum(16, 0, Sign::negated), chipful) == 0xBFAB);
  CHECK(compute(sum(16, 0, Sign::complemented), chipful) == 0xBFAA);
  CHECK(compute(sum(8, 0, Sign::negated), chipful) == 0xAB);
  CHECK(compute(sum(8, 0, Sign::complemented), chipful) == 0xAA);
  CHECK(compute(sum(16, 0, Sign::negated), Bytes{}) == 0x0000);
}

TEST_CASE("bytes are added two at a time, an odd last one with a zero beside it") {
  const SumRule low_first{16, 0, Sign::plain, Order::low_first};
  const SumRule high_first{16, 0, Sign::plain, Order::high_first};
  CHECK(compute(low_first, Bytes{0x01, 0x02, 0x03}) == 0x0204);   // 0201 + 0003
  CHECK(compute(high_first, Bytes{0x01, 0x02, 0x03}) == 0x0402);  // 0102 + 0300
  CHECK(compute(low_first, Bytes{0xFF, 0xFF, 0x02, 0x01}) ==
        0x0101);  // FFFF + 0102, kept to 16 bits
}

TEST_CASE("xor takes every byte once") {
  CHECK(compute(XorRule{0x00}, chipful) == 0xC7);
  CHECK(compute(XorRule{0xFF}, chipful) == 0x38);
  CHECK(compute(XorRule{0x00}, Bytes{0x0F, 0xF0, 0x81}) == 0x7E);
}

TEST_CASE("a CRC rule computes its model") {
  CHECK(compute(CrcRule{crc_models::ibm_3740},
                Bytes{'1', '2', '3', '4', '5', '6', '7', '8', '9'}) == 0x29B1);  // CRC-cat
  CHECK(compute(CrcRule{crc_models::smbus}, Bytes{'1', '2', '3', '4', '5', '6', '7', '8', '9'}) ==
        0xF4);  // CRC-cat
}

TEST_CASE("a balance byte brings the 8-bit sum to its target") {
  CHECK(compute(BalanceRule{0xAA}, chipful) == 0x55);  // 55h + 55h = AAh
  CHECK(compute(BalanceRule{0x00}, chipful) == 0xAB);
  CHECK(compute(BalanceRule{0x10}, Bytes{0x20}) == 0xF0);
}

TEST_CASE("a rule says how wide it is and what it is called") {
  CHECK(width(sum(16)) == 16);
  CHECK(width(sum(8)) == 8);
  CHECK(width(XorRule{}) == 8);
  CHECK(width(CrcRule{crc_models::ibm_3740}) == 16);
  CHECK(width(CrcRule{crc_models::smbus}) == 8);
  CHECK(width(BalanceRule{}) == 8);
  CHECK(kind(sum(8)) == "sum");
  CHECK(kind(XorRule{}) == "xor");
  CHECK(kind(CrcRule{}) == "crc");
  CHECK(kind(BalanceRule{}) == "balance");
}

TEST_CASE("a rule is described for people") {
  CHECK(describe(sum(16)) == "16-bit sum");
  CHECK(describe(sum(8, 0x5A, Sign::negated)) == "8-bit sum, starting from 5Ah, negated");
  CHECK(describe(SumRule{16, 0, Sign::complemented, Order::high_first}) ==
        "16-bit sum of byte pairs, high byte first, complemented");
  CHECK(describe(SumRule{16, 0, Sign::plain, Order::low_first}) ==
        "16-bit sum of byte pairs, low byte first");
  CHECK(describe(XorRule{}) == "all bytes xored");
  CHECK(describe(XorRule{0x5A}) == "all bytes xored, starting from 5Ah");
  CHECK(describe(CrcRule{crc_models::ibm_3740}) == "CRC-16, polynomial 1021h");
  CHECK(describe(CrcRule{crc_models::smbus}) == "CRC-8, polynomial 07h");
  CHECK(describe(BalanceRule{0xAA}) == "byte that brings the 8-bit sum to AAh");
}
