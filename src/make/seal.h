#pragma once

#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// The image with every check recomputed, in the order that checks over checks need. Refuses
/// (Error) when a covered byte is unknown.
Image seal(const Image& image, const Layout& layout);

}  // namespace rtcmend
