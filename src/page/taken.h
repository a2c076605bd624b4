#pragma once

#include <optional>
#include <vector>

#include "base/image.h"
#include "desk/ready.h"
#include "desk/shelf.h"
#include "judge/finding.h"
#include "layout/layout.h"
#include "render/json.h"

namespace rtcmend {

/// The request's image on its way off the page, and whether it may leave.
struct Taken {
  /// Refuses (Error) what may not leave, unless the request insists with `anyway`.
  Taken(const Json& request, const Shelf& shelf, Leaving leaving);

  Image image;
  Layout layout;
  std::vector<Finding> reading;
  Readiness ready;
};

}  // namespace rtcmend
