#pragma once

#include <span>
#include <string>
#include <string_view>

#include "layout/layout.h"

namespace rtcmend {

// Reading a layout from JSON takes longer than all the rest of a short command. So the build reads
// and proves every built-in layout once and keeps the result as bytes; starting turns those bytes
// back into the same layout.

/// A layout as bytes, for unpack() of the same program only: the form is private and may change.
std::string pack(const Layout& layout);

/// The layout that pack() was given. The bytes must come from pack().
Layout unpack(std::string_view packed);

/// The same without the words that only people read (units stay; labels, groups, notes, titles,
/// sources and drive types do not): enough to read values, evaluate checks and identify.
Layout unpack_outline(std::string_view packed);

/// The size of the images that it is for, without unpacking more.
std::size_t packed_size(std::string_view packed);

/// A built-in layout as the build packed it.
struct PackedLayout {
  std::string_view id;
  std::string_view bytes;
};

/// All of them, sorted by id. Defined in a source that the build generates; the tool that makes it
/// has none yet, and reads the JSON text instead.
std::span<const PackedLayout> packed_layouts();

}  // namespace rtcmend
