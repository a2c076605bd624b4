#pragma once

#include <optional>
#include <vector>

#include "base/image.h"
#include "base/text_column.h"
#include "repair/causes.h"

namespace rtcmend {

/// What is known of a dump beside its bytes: all that causes are weighed by.
struct Provenance {
  Origin origin = Origin::machine;
  TextColumn text{};              ///< what a listing shows beside its digits
  std::vector<Image> again{};     ///< the same chip, read once more or oftener
  std::optional<Image> before{};  ///< an earlier dump of the same machine
};

}  // namespace rtcmend
