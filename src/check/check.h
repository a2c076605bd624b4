#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/image.h"
#include "check/condition.h"
#include "check/rule.h"

namespace rtcmend {

/// A stretch of covered bytes, perhaps counting only under a condition.
struct Covered {
  Range range;
  std::optional<Condition> when;
  friend bool operator==(const Covered&, const Covered&) = default;
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

  friend bool operator==(const Check&, const Check&) = default;
};

/// Of the check's rule.
unsigned width(const Check& check);
std::string kind(const Check& check);
std::string describe(const Check& check);
/// Where the result is stored: one address or two, ascending.
Addresses stored_addresses(const Check& check);
/// Every address of every range, whatever its condition, in the order listed.
Addresses covered_addresses(const Check& check);

/// How a check stands in an image.
struct CheckResult {
  const Check* check = nullptr;
  /// False when its condition does not hold, or that of every stretch; the rest is then left empty.
  bool counts = true;
  std::optional<std::uint16_t> stored;    ///< nothing when a stored byte is unknown
  std::optional<std::uint16_t> computed;  ///< nothing when a byte that it rests on is unknown
  Addresses unknown;                      ///< what is missing to judge it, ascending
  /// The covered bytes that count are all 00, or all FF: proves nothing.
  bool blank = false;
  /// Known, equal and not blank; a check that does not count never stands in the way.
  bool ok() const { return !counts || (!blank && stored && stored == computed); }
};

/// The result points to `check`, which must outlive it. A range or a check whose condition rests on
/// an unknown byte is not judged: that byte is among the unknown ones.
CheckResult evaluate(const Check& check, const Image& image);

/// Stores the right value. Refuses (Error) when a covered byte, or one that a condition asks about,
/// is unknown, naming it. Does nothing when the check does not count.
void seal_one(const Check& check, Image& image);

/// The order in which checks must be sealed, as indexes: one that covers another's stored bytes, or
/// has a condition on them, comes after it; otherwise as listed. Refuses (Error, `where` given by
/// the caller) when they cover each other in a circle, or one covers its own stored bytes.
std::vector<std::size_t> sealing_order(const std::vector<Check>& checks, const std::string& where);

}  // namespace rtcmend
