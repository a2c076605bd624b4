#include "chip/registers.h"

#include <catch2/catch.hpp>
#include <string>

using namespace rtcmend;

TEST_CASE("register A of 26h counts at rate 6 (common practice, no source)") {
  const RegisterA a = decode_a(0x26);
  CHECK_FALSE(a.updating);
  CHECK(a.divider == 2);
  CHECK(a.rate == 6);
  CHECK(a.oscillator == Oscillator::counting);
}

TEST_CASE("only divider 010 counts, 11x is held, the rest is off (DS12885)") {
  CHECK(decode_a(0x00).oscillator == Oscillator::off);
  CHECK(decode_a(0x10).oscillator == Oscillator::off);
  CHECK(decode_a(0x20).oscillator == Oscillator::counting);
  CHECK(decode_a(0x30).oscillator == Oscillator::off);
  CHECK(decode_a(0x40).oscillator == Oscillator::off);
  CHECK(decode_a(0x50).oscillator == Oscillator::off);
  CHECK(decode_a(0x60).oscillator == Oscillator::held);
  CHECK(decode_a(0x70).oscillator == Oscillator::held);
  CHECK(decode_a(0xAF).oscillator == Oscillator::counting);
  CHECK(decode_a(0xAF).updating);
  CHECK(decode_a(0xAF).rate == 15);
  CHECK(decode_a(0x76).rate == 6);
}

TEST_CASE("each bit of register B means one thing (DS12885)") {
  CHECK(decode_b(0x80).set);
  CHECK(decode_b(0x40).periodic);
  CHECK(decode_b(0x20).alarm);
  CHECK(decode_b(0x10).update_ended);
  CHECK(decode_b(0x08).square_wave);
  CHECK(decode_b(0x04).binary);
  CHECK(decode_b(0x02).hours_24);
  CHECK(decode_b(0x01).daylight_saving);

  CHECK_FALSE(decode_b(0x7F).set);
  CHECK_FALSE(decode_b(0xBF).periodic);
  CHECK_FALSE(decode_b(0xDF).alarm);
  CHECK_FALSE(decode_b(0xEF).update_ended);
  CHECK_FALSE(decode_b(0xF7).square_wave);
  CHECK_FALSE(decode_b(0xFB).binary);
  CHECK_FALSE(decode_b(0xFD).hours_24);
  CHECK_FALSE(decode_b(0xFE).daylight_saving);
}

TEST_CASE("each bit of registers C and D means one thing (DS12885)") {
  CHECK(decode_c(0x80).request);
  CHECK(decode_c(0x40).periodic);
  CHECK(decode_c(0x20).alarm);
  CHECK(decode_c(0x10).update_ended);
  CHECK(decode_c(0xFA).reserved == 0x0A);
  CHECK_FALSE(decode_c(0x7F).request);
  CHECK_FALSE(decode_c(0xBF).periodic);
  CHECK_FALSE(decode_c(0xDF).alarm);
  CHECK_FALSE(decode_c(0xEF).update_ended);

  CHECK(decode_d(0x80).valid);
  CHECK(decode_d(0x80).reserved == 0);
  CHECK_FALSE(decode_d(0x7F).valid);
  CHECK(decode_d(0x7F).reserved == 0x7F);
}

TEST_CASE("the named bits claim every bit of 0A-0D once, highest first") {
  unsigned position = 0;  // counted in bits from bit 7 of 0Ah
  for (const NamedBits& bits : register_bits()) {
    INFO(bits.name);
    CHECK(bits.at == 0x0A + position / 8);
    CHECK(bits.high == 7 - position % 8);
    CHECK(bits.low <= bits.high);
    CHECK_FALSE(bits.label.empty());
    position += bits.high - bits.low + 1;
  }
  CHECK(position == 32);
}

TEST_CASE("the bits bear the data sheet's names (DS12885)") {
  std::string names;
  for (const NamedBits& bits : register_bits()) names += std::string(bits.name) + " ";
  CHECK(names == "UIP DV RS SET PIE AIE UIE SQWE DM 24/12 DSE IRQF PF AF UF 0 VRT 0 ");
}

TEST_CASE("rates are those of the table for 32.768 kHz (MC146818A, DS12885)") {
  struct Row {
    unsigned rate;
    const char* periodic;
    const char* square;
  };
  const Row rows[] = {
      {0x0, "none", "none"},
      {0x1, "3.90625 ms", "256 Hz"},
      {0x2, "7.8125 ms", "128 Hz"},
      {0x3, "122.070 us", "8.192 kHz"},
      {0x4, "244.141 us", "4.096 kHz"},
      {0x5, "488.281 us", "2.048 kHz"},
      {0x6, "976.5625 us", "1.024 kHz"},
      {0x7, "1.953125 ms", "512 Hz"},
      {0x8, "3.90625 ms", "256 Hz"},
      {0x9, "7.8125 ms", "128 Hz"},
      {0xA, "15.625 ms", "64 Hz"},
      {0xB, "31.25 ms", "32 Hz"},
      {0xC, "62.5 ms", "16 Hz"},
      {0xD, "125 ms", "8 Hz"},
      {0xE, "250 ms", "4 Hz"},
      {0xF, "500 ms", "2 Hz"},
  };
  for (const Row& row : rows) {
    CHECK(periodic_interrupt(row.rate) == row.periodic);
    CHECK(square_wave(row.rate) == row.square);
  }
}

TEST_CASE("C, D, UIP and the top bit of the seconds cannot be written (DS12885)") {
  CHECK(writable_bits(0x00) == 0x7F);
  CHECK(writable_bits(0x01) == 0xFF);
  CHECK(writable_bits(0x09) == 0xFF);
  CHECK(writable_bits(0x0A) == 0x7F);
  CHECK(writable_bits(0x0B) == 0xFF);
  CHECK(writable_bits(0x0C) == 0x00);
  CHECK(writable_bits(0x0D) == 0x00);
  CHECK(writable_bits(0x0E) == 0xFF);
  CHECK(writable_bits(0x7F) == 0xFF);
}
