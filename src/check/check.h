#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/image.h"
#include "check/condition.h"
#include "check/crc.h"

namespace rtcmend {

/// Which byte of a pair stands at the lower address.
enum class Order { low_first, high_first };

/// What happens to a plain sum before it is stored.
enum class Sign { plain, negated, complemented };

/// A sum of bytes, or of byte pairs, kept to 8 or 16 bits.
struct SumRule {
  unsigned width = 16;
  std::uint16_t start = 0;
  Sign sign = Sign::plain;
  std::optional<Order> pairs;  ///< given: covered bytes are added two at a time, in this order; an odd
                               ///< last byte is padded with 0
};

/// All bytes xored together: 8 bits.
struct XorRule {
  std::uint8_t start = 0;
};

/// A CRC over the covered bytes in ascending order of the ranges as listed.
struct CrcRule {
  CrcModel model;
};

/// One stored byte that makes the 8-bit sum of itself and the covered bytes come out at `target`.
struct BalanceRule {
  std::uint8_t target = 0;
};

using Rule = std::variant<SumRule, XorRule, CrcRule, BalanceRule>;

/// A stretch of covered bytes, perhaps counting only under a condition.
struct Covered {
  Range range;
  std::optional<Condition> when;
};

/// Ties stored check bytes to covered bytes.
struct Check {
  std::string id;
  std::string source;
  Rule rule;
  std::vector<Covered> over;
  Address stored_at = 0;  ///< the lower address of the stored byte or pair
  Order order = Order::high_first;
  std::optional<Condition> when;  ///< the check counts only then
};

/// 8 or 16.
unsigned width(const Check& check);
/// "sum", "xor", "crc" or "balance": the word of design and output.
std::string kind(const Check& check);
/// "16-bit sum", "CRC-16, polynomial 1021h": for people.
std::string describe(const Check& check);
/// Where the result is stored: one address or two, ascending.
Addresses stored_addresses(const Check& check);
/// Every address of every range, whatever its condition, in the order listed.
Addresses covered_addresses(const Check& check);

/// How a check stands in an image.
struct CheckResult {
  const Check* check = nullptr;
  bool counts = true;                      ///< false when its condition does not hold
  std::optional<std::uint16_t> stored;     ///< nothing when a stored byte is unknown
  std::optional<std::uint16_t> computed;   ///< nothing when a covered byte is unknown
  Addresses unknown;                       ///< what is missing to judge it
  bool blank = false;                      ///< all covered and stored bytes 00, or all FF: proves nothing
  /// Known, equal and not blank; a check that does not count never stands in the way.
  bool ok() const { return !counts || (stored && computed && *stored == *computed && !blank); }
};

CheckResult evaluate(const Check& check, const Image& image);

/// Stores the right value. Refuses (Error) when a covered byte is unknown, naming it. Does nothing
/// when the check does not count.
void seal_one(const Check& check, Image& image);

/// The order in which checks must be sealed: one that covers another's stored bytes comes after it.
/// Refuses (Error, `where` given by the caller) when they cover each other in a circle.
std::vector<std::size_t> sealing_order(const std::vector<Check>& checks, const std::string& where);

}  // namespace rtcmend
