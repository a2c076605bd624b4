#pragma once

#include "base/image.h"

namespace rtcmend {

// The ways in which a whole dump gets rearranged on its way out of the chip. Each is its own
// inverse, or takes the opposite number; unknown bytes move along as unknown ones.

/// Every byte `places` addresses higher (negative: lower); what leaves at one end comes in at the
/// other.
Image rotated(const Image& image, int places);
/// The two hex digits of every byte change places.
Image with_nibbles_swapped(const Image& image);
/// Bit 7 of every byte becomes bit 0, and so on.
Image with_bits_reversed(const Image& image);
/// Bytes 00h-3Fh twice, as a 64-byte part shows itself to seven address bits. The image must have
/// 64 bytes.
Image repeated(const Image& image);

}  // namespace rtcmend
