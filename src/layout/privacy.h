#pragma once

#include "base/ranges.h"
#include "layout/layout.h"

namespace rtcmend {

/// The bits of a byte that belong to a password.
std::uint8_t private_bits(const Layout& layout, Address at);

/// Every byte with such a bit, ascending: it is told by its address alone.
Addresses private_bytes(const Layout& layout);

/// Bits of a byte that differ, as they may be told: those of a password all together or not at all,
/// for which of them differ gives its value away beside a known one.
std::uint8_t told_bits(const Layout& layout, Address at, std::uint8_t differing);

/// The image with those bytes unknown.
Image without_private(Image image, const Layout& layout);

}  // namespace rtcmend
