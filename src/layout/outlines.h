#pragma once

#include <cstddef>
#include <vector>

#include "layout/layout.h"

namespace rtcmend {

/// Those of built_in_outlines() that are for images of this size, made once.
const std::vector<Layout>& built_in_outlines(std::size_t image_size);

}  // namespace rtcmend
