#include "base/ranges.h"

#include <fmt/format.h>

#include "base/text.h"

namespace rtcmend {

std::optional<Range> parse_range(std::string_view text) {
  const auto dash = text.find('-');
  const auto first = parse_hex(text.substr(0, dash), 0x7F);
  if (!first) return std::nullopt;
  if (dash == std::string_view::npos)
    return Range{static_cast<Address>(*first), static_cast<Address>(*first)};
  const auto last = parse_hex(text.substr(dash + 1), 0x7F);
  if (!last || *last < *first) return std::nullopt;
  return Range{static_cast<Address>(*first), static_cast<Address>(*last)};
}

std::string to_text(const Range& range) {
  if (range.first == range.last) return hex2(range.first);
  return hex2(range.first) + "-" + hex2(range.last);
}

std::vector<Range> to_ranges(const Addresses& addresses) {
  std::vector<Range> ranges;
  for (const Address at : addresses) {
    if (!ranges.empty() && ranges.back().last + 1 == at)
      ranges.back().last = at;
    else
      ranges.push_back({at, at});
  }
  return ranges;
}

namespace {

std::string join_ranges(const Addresses& addresses, std::string_view mark) {
  if (addresses.empty()) return "none";
  std::string text;
  for (const Range& range : to_ranges(addresses)) {
    if (!text.empty()) text += ", ";
    text += fmt::format("{:02X}{}", range.first, mark);
    if (range.last != range.first) text += fmt::format("-{:02X}{}", range.last, mark);
  }
  return text;
}

}  // namespace

std::string to_text(const Addresses& addresses) {
  return join_ranges(addresses, "");
}

std::string to_prose(const Addresses& addresses) {
  return join_ranges(addresses, "h");
}

Addresses to_addresses(const Range& range) {
  Addresses all;
  for (unsigned at = range.first; at <= range.last; ++at) all.push_back(static_cast<Address>(at));
  return all;
}

}  // namespace rtcmend
