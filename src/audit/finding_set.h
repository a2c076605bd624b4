#pragma once

#include <array>
#include <atomic>
#include <cstdint>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

#include "judge/finding.h"

namespace rtcmend {

/// Which findings an image has, by their ids alone: one bit each, numbered by FindingNames.
struct FindingSet {
  std::uint64_t bits = 0;
  bool fault = false;  ///< one of them is a fault

  FindingSet& operator|=(const FindingSet& other) {
    bits |= other.bits;
    fault = fault || other.fault;
    return *this;
  }
  friend bool operator==(const FindingSet&, const FindingSet&) = default;
};

/// Gives each id of a finding a number when it is first met. Several threads may share one.
class FindingNames {
 public:
  static constexpr std::size_t most = 64;

  /// Throws Error when there are more than `most` different ids, which no rule book of ours has.
  FindingSet set_of(const std::vector<Finding>& findings);
  /// The ids of a set, sorted.
  std::vector<std::string_view> names(const FindingSet& set) const;
  /// The id with this number.
  std::string_view name(std::size_t number) const { return names_[number]; }

 private:
  std::size_t number(std::string_view id);

  std::mutex mutex_;
  std::atomic<std::size_t> count_ = 0;  ///< names below it are never written again
  std::array<std::string, most> names_;
};

}  // namespace rtcmend
