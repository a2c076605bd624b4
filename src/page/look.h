#pragma once

#include <vector>

#include "desk/ready.h"
#include "layout/layout.h"
#include "render/json.h"

namespace rtcmend {

/// All that the page draws for an image: `layout`, `sound`, `ready`, `misread`,
/// `standing`, `verdict`, `clock`, `registers`, `groups`,
/// `plan`, `fields`, `checks`, `findings`, `forecast`.
Json look_json(const Image& image, const Layout& layout, const Readiness& ready);

}  // namespace rtcmend
