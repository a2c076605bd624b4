#pragma once

#include <vector>

#include "base/image.h"
#include "check/check.h"
#include "chip/clock.h"
#include "judge/finding.h"
#include "judge/standing.h"
#include "layout/codec.h"
#include "layout/layout.h"

namespace rtcmend {

/// Everything that one layout says about one image. Points into the layout, which must outlive it.
struct Examination {
  ClockReading clock;
  std::vector<FieldReading> fields;  ///< in the layout's order
  std::vector<CheckResult> checks;   ///< in the layout's order
  std::vector<Finding> findings;     ///< worst first, then by address
  Standing standing;
  /// The standing is good in all three respects, and no finding is a fault.
  bool sound = false;
};

/// Every check of the layout, in its order. Beside a check that holds on bytes which say something,
/// an area of equal bytes is empty, not blank: firmware that keeps nothing there seals it all the
/// same.
std::vector<CheckResult> evaluate_all(const Layout& layout, const Image& image);
/// The same for results that were come by one by one: all those of one layout.
std::vector<CheckResult> taken_together(std::vector<CheckResult> results);

/// Judges an image whose size is the layout's. Refuses (Error) another size.
Examination examine(const Image& image, const Layout& layout);

/// The examination with more findings in their places, judged anew. When the dump was misread, only
/// findings about the reading keep their advice.
Examination with_findings(Examination examination, const std::vector<Finding>& more);

}  // namespace rtcmend
