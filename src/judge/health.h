#pragma once

#include <functional>
#include <span>
#include <vector>

#include "base/image.h"
#include "base/text_column.h"
#include "judge/examine.h"
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
std::vector<Finding> health(const Image& image, std::span<const Layout> layouts);

/// Those among an examination's findings that are about the reading. They belong to the dump as it
/// was read, and stay with it whatever is changed afterwards.
std::vector<Finding> reading_findings(const Examination& as_read);

/// Judges an image that was made by changing a dump: its own bytes, and what was wrong with the
/// reading of the dump. The reading is never judged by bytes that were changed.
Examination examine_changed(const Image& image, const Layout& layout,
                            const std::vector<Finding>& reading);

/// Gives all layouts that are known, for those who may not need them.
using LayoutSource = std::function<std::span<const Layout>()>;

/// examine() with health()'s findings in their places. `others` are asked about the dump as a whole
/// when the image is not sound by `layout`; a sound one needs no other layouts to vouch for it.
/// Where nothing proves the settings, data-bit-absent is among the findings, too.
Examination examine_whole(const Image& image, const Layout& layout, const LayoutSource& others);

/// The bits of a byte that must read the same twice.
std::uint8_t steady_bits(Address at);

/// unstable-reads: bytes that differ between dumps of the same chip although nothing should
/// have changed them. The clock's ticking bytes, the update flag and register C are left out.
/// `hidden` bytes, a password's, are told by their addresses alone (layout/privacy.h); ascending.
/// Refuses (Error) dumps of different sizes.
std::vector<Finding> compare_reads(const Image& first, const std::vector<Image>& others,
                                   const Addresses& hidden = {});

/// text-column-differs: bytes of a listing whose letter beside them shows another byte, with the
/// reading that fits the letter. `hidden` bytes are told by their addresses alone.
std::vector<Finding> compare_text(const Image& image, const TextColumn& text,
                                  const Addresses& hidden = {});

}  // namespace rtcmend
