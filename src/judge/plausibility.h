#pragma once

#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// How a working machine's image compares with others under its layout: the log2 of an unnormalised
/// likelihood, so only differences mean something. 0 or less. What counts, by judgement:
///   an illegal value -8, a field that contradicts those it follows -5, an escape byte left over
///   -2, memory that is no multiple of 64 KiB -4, a field off its default -1, bytes without a known
///   structure: by how common 00, FF and other values are among them.
/// Whether checks hold is not looked at.
double plausibility(const Image& image, const Layout& layout);

}  // namespace rtcmend
