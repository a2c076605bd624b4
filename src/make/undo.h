#pragma once

#include <string_view>

#include "base/image.h"

namespace rtcmend {

/// Takes back what happened to a whole dump while it was read:
///   "shift=N"    every byte stands N addresses too high (negative: too low)
///   "nibbles"    the two hex digits of every byte are swapped
///   "bit-order"  bit 7 of every byte is bit 0, and so on
/// Refuses (Error) anything else with what is accepted.
Image undo(const Image& image, std::string_view what);

}  // namespace rtcmend
