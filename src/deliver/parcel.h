#pragma once

#include "deliver/delivery.h"
#include "layout/layout.h"

namespace rtcmend {

/// Which bytes go into the chip: those up to where the layout needs any, so that the rest of a
/// larger chip is left alone, or all of the image.
enum class Delivered { used, all };

/// The parcel for an image under its layout: the fields that the old machine shows first, the
/// checks, the bytes of passwords, and the century's place. 0Fh, the reason of the last shutdown,
/// becomes 00h. Clock policy, disk and occasion are left as they are by default.
Parcel parcel_of(const Image& image, const Layout& layout, Delivered what = Delivered::used);

}  // namespace rtcmend
