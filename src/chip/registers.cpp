#include "chip/registers.h"

#include <array>

namespace rtcmend {

namespace {

bool bit(std::uint8_t byte, unsigned number) {
  return ((byte >> number) & 1U) != 0;
}

std::uint8_t bits(std::uint8_t byte, unsigned high, unsigned low) {
  return static_cast<std::uint8_t>((byte >> low) & ((1U << (high - low + 1)) - 1U));
}

// DS12885, register A. The original 146818 knows two more patterns, 000 and 001, for crystals that
// PCs do not have (MC146818A); with theirs the time would not be kept either.
Oscillator oscillator_of(std::uint8_t divider) {
  if (divider == 0b010) return Oscillator::counting;
  if ((divider & 0b110) == 0b110) return Oscillator::held;
  return Oscillator::off;
}

// DS12885, periodic interrupt rate and square-wave table; the time base is 32.768 kHz.
struct Rate {
  std::string_view periodic, square_wave;
};
constexpr std::array<Rate, 16> rates{{
    {"none", "none"},
    {"3.90625 ms", "256 Hz"},
    {"7.8125 ms", "128 Hz"},
    {"122.070 us", "8.192 kHz"},
    {"244.141 us", "4.096 kHz"},
    {"488.281 us", "2.048 kHz"},
    {"976.5625 us", "1.024 kHz"},
    {"1.953125 ms", "512 Hz"},
    {"3.90625 ms", "256 Hz"},
    {"7.8125 ms", "128 Hz"},
    {"15.625 ms", "64 Hz"},
    {"31.25 ms", "32 Hz"},
    {"62.5 ms", "16 Hz"},
    {"125 ms", "8 Hz"},
    {"250 ms", "4 Hz"},
    {"500 ms", "2 Hz"},
}};

}  // namespace

RegisterA decode_a(std::uint8_t byte) {
  const std::uint8_t divider = bits(byte, 6, 4);
  return {bit(byte, 7), divider, bits(byte, 3, 0), oscillator_of(divider)};
}

RegisterB decode_b(std::uint8_t byte) {
  return {bit(byte, 7), bit(byte, 6), bit(byte, 5), bit(byte, 4),
          bit(byte, 3), bit(byte, 2), bit(byte, 1), bit(byte, 0)};
}

RegisterC decode_c(std::uint8_t byte) {
  return {bit(byte, 7), bit(byte, 6), bit(byte, 5), bit(byte, 4), bits(byte, 3, 0)};
}

RegisterD decode_d(std::uint8_t byte) {
  return {bit(byte, 7), bits(byte, 6, 0)};
}

const std::vector<NamedBits>& register_bits() {
  static const std::vector<NamedBits> all{
      {reg::a, 7, 7, "UIP", "update in progress"},
      {reg::a, 6, 4, "DV", "oscillator and divider"},
      {reg::a, 3, 0, "RS", "rate of periodic interrupt and square wave"},
      {reg::b, 7, 7, "SET", "updates frozen"},
      {reg::b, 6, 6, "PIE", "periodic interrupt on"},
      {reg::b, 5, 5, "AIE", "alarm interrupt on"},
      {reg::b, 4, 4, "UIE", "update-ended interrupt on"},
      {reg::b, 3, 3, "SQWE", "square wave on"},
      {reg::b, 2, 2, "DM", "clock in binary, not BCD"},
      {reg::b, 1, 1, "24/12", "24-hour mode"},
      {reg::b, 0, 0, "DSE", "daylight saving (United States, until 2006)"},
      {reg::c, 7, 7, "IRQF", "interrupt requested"},
      {reg::c, 6, 6, "PF", "periodic interrupt came"},
      {reg::c, 5, 5, "AF", "alarm came"},
      {reg::c, 4, 4, "UF", "update ended"},
      {reg::c, 3, 0, "0", "always read as 0"},
      {reg::d, 7, 7, "VRT", "RAM and time valid"},
      {reg::d, 6, 0, "0", "always read as 0"},
  };
  return all;
}

std::string_view periodic_interrupt(unsigned rate) {
  return rates[rate & 0x0F].periodic;
}

std::string_view square_wave(unsigned rate) {
  return rates[rate & 0x0F].square_wave;
}

std::uint8_t writable_bits(Address at) {
  switch (at) {
    case reg::seconds:
    case reg::a:
      return 0x7F;
    case reg::c:
    case reg::d:
      return 0x00;
    default:
      return 0xFF;
  }
}

}  // namespace rtcmend
