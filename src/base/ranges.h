#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rtcmend {

/// Where a byte stands in the chip: 00h to 7Fh.
using Address = std::uint8_t;
/// Some bytes of the chip, ascending.
using Addresses = std::vector<Address>;

/// Consecutive bytes, both ends included.
struct Range {
  Address first = 0;
  Address last = 0;

  bool contains(Address at) const { return first <= at && at <= last; }
  std::size_t size() const { return static_cast<std::size_t>(last - first) + 1; }
  friend bool operator==(const Range&, const Range&) = default;
};

/// Reads "2E" or "10-2D", hex digits without marks, either case. Nothing when it is not one, when
/// the ends are swapped, or when it goes past 7Fh.
std::optional<Range> parse_range(std::string_view text);
/// "2E" or "10-2D".
std::string to_text(const Range& range);
/// The same addresses as few ranges: 10 11 12 2E becomes 10-12, 2E. Expects ascending order.
std::vector<Range> to_ranges(const Addresses& addresses);
/// "10-12, 2E", or "none".
std::string to_text(const Addresses& addresses);
/// For prose: "10h-12h, 2Eh".
std::string to_prose(const Addresses& addresses);
/// Every address of the range, ascending.
Addresses to_addresses(const Range& range);

}  // namespace rtcmend
