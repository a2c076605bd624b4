#include "audit/finding_set.h"

#include <algorithm>
#include <bit>

namespace rtcmend {

namespace {

template <typename Visit>
void visit_kinds(const FindingSet& set, const Visit& visit) {
  for (std::uint64_t rest = set.bits; rest != 0; rest &= rest - 1)
    visit(finding_kinds[static_cast<std::size_t>(std::countr_zero(rest))]);
}

consteval std::uint64_t bits_of_faults() {
  std::uint64_t bits = 0;
  for (const KindOfFinding& row : finding_kinds)
    if (row.severity == Severity::fault)
      bits |= std::uint64_t{1} << static_cast<unsigned>(row.kind);
  return bits;
}

}  // namespace

FindingSet set_of(const std::vector<Finding>& findings) {
  FindingSet set;
  for (const Finding& finding : findings) set.add(finding.kind);
  return set;
}

Standing standing_of(const FindingSet& set) {
  Standing standing;
  visit_kinds(set, [&](const KindOfFinding& row) { standing = with_effect(standing, row.effect); });
  return standing;
}

bool has_fault(const FindingSet& set) {
  return (set.bits & bits_of_faults()) != 0;
}

std::vector<std::string_view> ids_of(const FindingSet& set) {
  std::vector<std::string_view> ids;
  visit_kinds(set, [&](const KindOfFinding& row) { ids.push_back(row.id); });
  std::sort(ids.begin(), ids.end());
  return ids;
}

}  // namespace rtcmend
