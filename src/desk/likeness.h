#pragma once

#include "base/image.h"
#include "desk/shelf.h"

namespace rtcmend {

/// How much an image looks like a chip's, in bits of evidence by the layouts at hand; 0 for noise.
/// What weighs the readings of a listing that its text alone leaves open (forms/reading.h).
double likeness(const Image& image, const Shelf& shelf);

}  // namespace rtcmend
