#include "audit/finding_set.h"

#include <algorithm>
#include <bit>

#include "base/error.h"

namespace rtcmend {

std::size_t FindingNames::number(std::string_view id) {
  const std::lock_guard lock(mutex_);
  const auto end = names_.begin() + static_cast<std::ptrdiff_t>(count_.load());
  const auto found = std::find(names_.begin(), end, id);
  if (found == names_.end()) refuse("audit", "there are more kinds of findings than it can count");
  if (found == end) {
    *found = id;
    ++count_;
  }
  return static_cast<std::size_t>(found - names_.begin());
}

FindingSet FindingNames::set_of(const std::vector<Finding>& findings) {
  FindingSet set;
  for (const Finding& finding : findings) {
    set.bits |= std::uint64_t{1} << number(finding.id);
    set.fault = set.fault || finding.severity == Severity::fault;
  }
  return set;
}

std::vector<std::string_view> FindingNames::names(const FindingSet& set) const {
  std::vector<std::string_view> found;
  for (std::uint64_t rest = set.bits; rest != 0; rest &= rest - 1)
    found.push_back(names_[static_cast<std::size_t>(std::countr_zero(rest))]);
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace rtcmend
