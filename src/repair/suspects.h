#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/image.h"
#include "layout/layout.h"
#include "repair/repair.h"

namespace rtcmend {

/// One repair that would explain failed checks.
struct Suspect {
  std::string id;    ///< "bit-12-3", "byte-12-F0", "swap-12-13", "seal-sum-10-2d"
  std::string text;  ///< what went wrong, and what the repair makes of the fields
  std::vector<Patch> changes;
  std::vector<std::string> mends;  ///< ids of the checks that hold afterwards
  /// 0 to 1: its share among the suspects for the same checks; how often such damage is met, times
  /// how plausible the repaired image is (plausibility.h).
  double odds = 0;
};

/// The smallest repairs that would explain the failed checks, likeliest first: one bit, one byte,
/// two swapped bytes, a stale or lost check. When no small repair explains all checks, those that
/// explain one. Empty when every check holds, is blank, or cannot be judged.
std::vector<Suspect> suspects(const Image& image, const Layout& layout);

/// The suspect with this id. Refuses (Error) one that is not among them, with the nearest ids.
const Suspect& need_suspect(const std::vector<Suspect>& all, std::string_view id);

/// The image with the repair made. Bytes other than the suspect's are left alone.
Image repaired(const Image& image, const Suspect& suspect);

}  // namespace rtcmend
