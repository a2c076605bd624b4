#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>

#include "check/crc.h"

namespace rtcmend {

/// Which byte of a pair stands at the lower address.
enum class Order { low_first, high_first };
/// "low-first", "high-first".
std::string_view name(Order order);

/// What happens to a plain sum before it is stored.
enum class Sign { plain, negated, complemented };
/// "plain", "negated", "complemented".
std::string_view name(Sign sign);

/// A sum of bytes, or of byte pairs, kept to 8 or 16 bits.
struct SumRule {
  unsigned width = 16;
  std::uint16_t start = 0;  ///< what the adding starts from; the sign applies to the whole
  Sign sign = Sign::plain;
  std::optional<Order> pairs;  ///< given: covered bytes are added two at a time, in this order; an
                               ///< odd last byte is padded with 0

  friend bool operator==(const SumRule&, const SumRule&) = default;
};

/// All bytes xored together: 8 bits.
struct XorRule {
  std::uint8_t start = 0;

  friend bool operator==(const XorRule&, const XorRule&) = default;
};

/// A CRC over the covered bytes in the order of the ranges as listed.
struct CrcRule {
  CrcModel model;

  friend bool operator==(const CrcRule&, const CrcRule&) = default;
};

/// One stored byte that makes the 8-bit sum of itself and the covered bytes come out at `target`.
struct BalanceRule {
  std::uint8_t target = 0;

  friend bool operator==(const BalanceRule&, const BalanceRule&) = default;
};

/// The arithmetic of a check, apart from where its bytes stand.
using Rule = std::variant<SumRule, XorRule, CrcRule, BalanceRule>;

/// How many bits it stores: 8 or 16.
unsigned width(const Rule& rule);
/// "sum", "xor", "crc" or "balance": the word of design and output.
std::string kind(const Rule& rule);
/// "16-bit sum", "CRC-16, polynomial 1021h": for people.
std::string describe(const Rule& rule);
/// What must be stored for these covered bytes.
std::uint16_t compute(const Rule& rule, std::span<const std::uint8_t> covered);
/// The same for a sum of single bytes or a balance, whose covered bytes add up to `sum`.
std::uint16_t compute_from_sum(const Rule& rule, std::uint32_t sum);

}  // namespace rtcmend
