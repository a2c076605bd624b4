#pragma once

#include <optional>
#include <span>
#include <vector>

#include "base/image.h"
#include "judge/finding.h"
#include "layout/layout.h"

namespace rtcmend {

// The families of health findings; health() calls them in this order and stops where one explains
// everything that the next would see.

/// dump-all-ff, dump-all-00, dump-one-value.
std::optional<Finding> one_value_finding(const Image& image);

/// Whether the upper half repeats the lower one, apart from what ticks between two reads. Always
/// false for 64 bytes, and when the bytes are all the same.
bool halves_mirror(const Image& image);
/// halves-mirrored, which address line 6 stuck at 0 looks like as well.
Finding mirror_finding();
/// What is said of a half that was kept: halves-mirrored, or, when it is not a chip's lower half,
/// address-line-stuck.
Finding half_of_mirror_finding(const Image& half);
/// address-line-stuck for A6 at 1: halves that mirror each other, but are not a chip's lower half.
Finding upper_half_finding();

/// address-line-stuck for A0 to A5.
std::optional<Finding> address_line_finding(const Image& image);

/// data-bit-stuck at 1, one for each bit: certain, for a chip gives 0 in every bit somewhere.
std::vector<Finding> bits_stuck_at_1(const Image& image);

/// shifted, nibbles-swapped, bits-reversed: the dump makes no sense as it stands, and taking that
/// one thing back makes it a chip's.
std::optional<Finding> rearranged_finding(const Image& image, std::span<const Layout> layouts);

/// data-bit-stuck at 0, one for each bit: honest dumps lack a bit too, so it takes evidence.
std::vector<Finding> bits_stuck_at_0(const Image& image, std::span<const Layout> layouts);

/// data-bit-absent: bits that are 0 in every byte, which is too little for data-bit-stuck. For
/// images of which no check says that the bytes are right.
std::optional<Finding> absent_bits(const Image& image);

/// ram-cleared.
std::optional<Finding> cleared_finding(const Image& image);

}  // namespace rtcmend
