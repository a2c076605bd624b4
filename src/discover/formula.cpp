#include "discover/formula.h"

#include <numeric>

namespace rtcmend {

namespace {

std::uint16_t keep(unsigned width, std::uint32_t value) {
  return static_cast<std::uint16_t>(value & ((1U << width) - 1U));
}

std::uint32_t sum_of(const Formula& formula, std::span<const std::uint8_t> covered) {
  std::uint32_t at_even = 0, at_odd = 0;
  for (std::size_t i = 0; i < covered.size(); ++i) (i % 2 == 0 ? at_even : at_odd) += covered[i];
  if (!formula.pairs) return at_even + at_odd;
  return *formula.pairs == Order::low_first ? at_even + (at_odd << 8) : (at_even << 8) + at_odd;
}

std::uint16_t crc_of(const Formula& formula, std::span<const std::uint8_t> covered) {
  const CrcTable table = crc_table(formula.width, formula.poly);
  std::uint16_t rest = 0;
  for (const std::uint8_t byte : covered) {
    const auto next = formula.refin ? static_cast<std::uint8_t>(mirror(byte, 8)) : byte;
    rest = formula.width == 8 ? crc_step8(table, rest, next) : crc_step16(table, rest, next);
  }
  return formula.refout ? mirror(rest, formula.width) : rest;
}

}  // namespace

std::uint16_t mirror(std::uint16_t value, unsigned width) {
  unsigned bits = value;
  bits = (bits & 0x5555U) << 1 | (bits >> 1 & 0x5555U);
  bits = (bits & 0x3333U) << 2 | (bits >> 2 & 0x3333U);
  bits = (bits & 0x0F0FU) << 4 | (bits >> 4 & 0x0F0FU);
  bits = (bits & 0x00FFU) << 8 | (bits >> 8 & 0x00FFU);
  return static_cast<std::uint16_t>(bits >> (16 - width));
}

// Linear in the index: eight divisions give the table, the rest are xors.
CrcTable crc_table(unsigned width, std::uint16_t poly) {
  CrcTable table{};
  const unsigned top = 1U << (width - 1);
  unsigned rest = poly;
  for (unsigned bit = 1; bit < 256; bit <<= 1) {
    for (unsigned below = 0; below < bit; ++below)
      table[bit | below] = static_cast<std::uint16_t>(rest ^ table[below]);
    rest = keep(width, (rest & top) != 0 ? rest << 1 ^ poly : rest << 1);
  }
  return table;
}

std::uint16_t plain_value(const Formula& formula, std::span<const std::uint8_t> covered) {
  switch (formula.kind) {
    case Formula::Kind::sum:
      return keep(formula.width, sum_of(formula, covered));
    case Formula::Kind::exclusive_or:
      return std::accumulate(
          covered.begin(), covered.end(), std::uint16_t{0},
          [](std::uint16_t all, std::uint8_t byte) -> std::uint16_t { return all ^ byte; });
    case Formula::Kind::crc:
      break;
  }
  return crc_of(formula, covered);
}

std::uint16_t constant_between(const Formula& formula, std::uint16_t plain, std::uint16_t stored) {
  if (formula.kind != Formula::Kind::sum) return stored ^ plain;
  return keep(formula.width, formula.inverse ? stored + plain : 0U + stored - plain);
}

std::uint16_t stored_value(const Formula& formula, std::uint16_t constant, std::uint16_t plain) {
  if (formula.kind != Formula::Kind::sum) return constant ^ plain;
  return keep(formula.width, formula.inverse ? 0U + constant - plain : 0U + constant + plain);
}

}  // namespace rtcmend
