#pragma once

#include <cstdint>
#include <vector>

#include "deliver/plan.h"

namespace rtcmend {

/// Consecutive bytes of the chip that are written one after the other.
struct Run {
  Address first = 0;
  std::vector<std::uint8_t> bytes;
};

/// Everything a plan writes, in the safe order, for programs too small to judge the running clock:
/// with the policy `image` they write the time (SET in register B first, register A last), else
/// they leave 00h-0Bh alone. The century byte is one of the RAM bytes to them.
struct Runs {
  std::vector<Run> clock;  ///< empty unless the policy is `image`
  std::vector<Run> ram;
  std::vector<Run> last;  ///< register B as wanted, after a clock
};

/// Refuses (Error) the policy `ask`: they cannot.
Runs runs_of(const Parcel& parcel, const WritePlan& plan);

}  // namespace rtcmend
