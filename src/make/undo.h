#pragma once

#include <string_view>

#include "base/image.h"

namespace rtcmend {

/// Takes back what happened to a whole dump while it was read:
///   "shift=N"    every byte stands N addresses too high (negative: too low)
///   "nibbles"    the two hex digits of every byte are swapped
///   "bit-order"  bit 7 of every byte is bit 0, and so on
///   "mirror"     a 64-byte part was read as 128: keeps the lower half
/// Refuses (Error) anything else with what is accepted, and a mirror of an image that has 64 bytes
/// or whose halves differ in the RAM.
Image undo(const Image& image, std::string_view what);

}  // namespace rtcmend
