#pragma once

#include "base/image.h"

namespace rtcmend {

/// How much an image looks like a chip's: the bits of evidence that the built-in layout which fits
/// best has for it, 0 for noise. For ReadingOptions::likeness.
double likeness(const Image& image);

}  // namespace rtcmend
