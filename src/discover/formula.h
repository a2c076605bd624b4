#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>

#include "check/rule.h"

namespace rtcmend {

/// The arithmetic of a check without its constants (start value, final xor, target): those drop out
/// between two dumps, so the search never sees them.
struct Formula {
  enum class Kind { sum, exclusive_or, crc };
  Kind kind = Kind::sum;
  unsigned width = 16;         ///< 8 or 16
  bool inverse = false;        ///< sums: the stored value falls when the sum rises
  std::optional<Order> pairs;  ///< sums: bytes are added two at a time
  std::uint16_t poly = 0;      ///< CRCs: without the top bit, odd
  bool refin = false, refout = false;

  friend bool operator==(const Formula&, const Formula&) = default;
};

/// The lowest `width` bits in the other direction.
std::uint16_t mirror(std::uint16_t value, unsigned width);

/// What each byte adds to a CRC register whose highest bit leaves first.
using CrcTable = std::array<std::uint16_t, 256>;
CrcTable crc_table(unsigned width, std::uint16_t poly);

/// The register after one more byte.
constexpr std::uint16_t crc_step8(const CrcTable& table, std::uint16_t rest, std::uint8_t byte) {
  return table[(rest ^ byte) & 0xFFU];
}
constexpr std::uint16_t crc_step16(const CrcTable& table, std::uint16_t rest, std::uint8_t byte) {
  return static_cast<std::uint16_t>(rest << 8) ^ table[(rest >> 8 ^ byte) & 0xFFU];
}

/// The value of a formula with all its constants 0.
std::uint16_t plain_value(const Formula& formula, std::span<const std::uint8_t> covered);

/// The constant that ties a plain value to a stored one: stored = constant xor plain for CRC and
/// xor, constant + plain for sums, constant - plain for inverse sums, kept to the formula's width.
std::uint16_t constant_between(const Formula& formula, std::uint16_t plain, std::uint16_t stored);
/// The stored value that follows from a plain value and that constant.
std::uint16_t stored_value(const Formula& formula, std::uint16_t constant, std::uint16_t plain);

}  // namespace rtcmend
