#pragma once

#include <span>
#include <vector>

#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// From so many bits of credence on a dump makes sense as it stands: nothing is looked for that
/// would have moved its bytes about.
inline constexpr double makes_sense = 16;
/// Checks of so many bits that hold say that the bytes are right, whatever else looks odd.
inline constexpr double proven_right = 16;

/// How much the clock bytes and registers look like those of a working chip, in bits: what only one
/// in 65,536 random images would show counts 16. Illegal bytes count against it. Sound images of
/// working chips come to more than 20, noise to less than -20. Unknown bytes count nothing.
double chip_credence(const Image& image);

/// The best that any layout of the image's size can claim by checks that hold on bytes that are not
/// blank: the sum of their widths in bits.
double check_credence(const Image& image, std::span<const Layout> layouts);

/// The same, but only by layouts whose every check that counts holds.
double proven_bits(const Image& image, std::span<const Layout> layouts);

/// chip_credence and check_credence together.
double credence(const Image& image, std::span<const Layout> layouts);

}  // namespace rtcmend
