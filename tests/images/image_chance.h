#pragma once

#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// The log2 of how often random_image() draws just these bytes above the clock's, but for a
/// constant of the layout; minus infinity where it never does. The other side of random_image.cpp,
/// written down by hand: who changes the one changes the other.
double image_chance(const Image& image, const Layout& layout);

}  // namespace rtcmend
