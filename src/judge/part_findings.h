#pragma once

#include <vector>

#include "base/image.h"
#include "chip/part.h"
#include "judge/finding.h"
#include "layout/layout.h"

namespace rtcmend {

/// What it means that this image is, or shall be, in this part: part-too-small, part-larger,
/// part-century-clash, part-ram-cleared, part-ram-clear, part-ships-stopped, part-trickle-charger.
/// In that order.
std::vector<Finding> part_findings(const Image& image, const Layout& layout, const Part& part);

}  // namespace rtcmend
