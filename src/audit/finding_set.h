#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "judge/finding.h"
#include "judge/standing.h"

namespace rtcmend {

/// Which findings an image has, by their kinds alone: a bit each.
struct FindingSet {
  std::uint64_t bits = 0;

  void add(FindingKind kind) { bits |= std::uint64_t{1} << static_cast<unsigned>(kind); }
  void remove(FindingKind kind) { bits &= ~(std::uint64_t{1} << static_cast<unsigned>(kind)); }
  bool has(FindingKind kind) const { return (bits >> static_cast<unsigned>(kind) & 1U) != 0; }
  FindingSet& operator|=(const FindingSet& other) {
    bits |= other.bits;
    return *this;
  }
  friend bool operator==(const FindingSet&, const FindingSet&) = default;
};
static_assert(finding_kinds.size() <= 64);

/// The kinds of these findings.
FindingSet set_of(const std::vector<Finding>& findings);
/// What the findings come to together.
Standing standing_of(const FindingSet& set);
/// Whether one of them is a fault.
bool has_fault(const FindingSet& set);
/// The ids, sorted.
std::vector<std::string_view> ids_of(const FindingSet& set);

}  // namespace rtcmend
