#pragma once

#include <span>
#include <string>
#include <string_view>

#include "layout/trait.h"

namespace rtcmend {

// Reading layouts from JSON takes longer than all the rest of a short command. So the build reads
// and proves every built-in class and trait once and keeps the result as bytes; starting turns
// those bytes back into the same.

/// A class or a trait as bytes, for unpacking by the same program only: the form is private and may
/// change.
std::string pack(const LayoutClass& layout_class);
std::string pack(const Trait& trait);

/// How much of one is wanted back.
enum class Unpacked {
  whole,
  /// without the words that only people read (units stay; labels, groups, notes, titles, sources
  /// and drive types do not): enough to read values, evaluate checks and identify
  outline
};

/// What pack() was given. The bytes must come from pack().
LayoutClass unpack_class(std::string_view packed, Unpacked how);
Trait unpack_trait(std::string_view packed, Unpacked how);

/// A built-in class or trait as the build packed it.
struct PackedPiece {
  std::string_view id;
  std::string_view bytes;
};

/// All of them: classes sorted by id; traits in the order of their families in their first class
/// and, in a family, by id. Defined in a source that the build generates; the tool that makes it
/// has none yet.
std::span<const PackedPiece> packed_classes();
std::span<const PackedPiece> packed_traits();

}  // namespace rtcmend
