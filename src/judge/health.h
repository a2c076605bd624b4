#pragma once

#include <vector>

#include "base/image.h"
#include "judge/finding.h"
#include "layout/layout.h"

namespace rtcmend {

/// What is wrong with a dump as a whole, before any single byte is believed: faults of the reading,
/// not of the chip's contents. Ids:
///   dump-all-ff, dump-all-00, dump-one-value   nothing answered
///   address-line-stuck                          two halves of the addresses read the same bytes
///   halves-mirrored                             a 64-byte part was read as 128
///   shifted, nibbles-swapped, bits-reversed     reversible: the remedy says how
///   data-bit-stuck                              one bit is the same in every byte
///   ram-cleared                                 clock right, every RAM byte FFh
/// layouts: whose checks may speak; those of other sizes are passed over. A dump on which a 16-bit
/// check holds, and whose clock makes sense, has none of these faults.
std::vector<Finding> health(const Image& image, const std::vector<Layout>& layouts);

/// unstable-reads: bytes that differ between two dumps of the same chip although nothing should
/// have changed them. The clock's ticking bytes, the update flag and register C are left out.
/// Refuses (Error) dumps of different sizes.
std::vector<Finding> compare_reads(const Image& first, const Image& second);

}  // namespace rtcmend
