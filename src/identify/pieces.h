#pragma once

#include <span>
#include <vector>

#include "layout/layout.h"
#include "layout/trait.h"

namespace rtcmend {

/// One thing that identification weighs by itself: a class (in each of the versions that its main
/// check comes in), a layout of one's own, or what a trait adds to its class.
struct Piece {
  const Layout* layout;                       ///< of a trait: of the class with it
  const LayoutClass* of = nullptr;            ///< null for a layout of one's own
  const Trait* trait = nullptr;               ///< null for a class by itself
  std::size_t first_field = 0;                ///< from here on its fields count,
  std::size_t first_check = 0;                ///< and its checks
  bool is_whole = true;  ///< stands for a machine's layout, and not only for what is added to one

  std::span<const Field> fields() const { return std::span(layout->fields).subspan(first_field); }
  std::span<const Check> checks() const { return std::span(layout->checks).subspan(first_check); }
};

/// The built-in ones that fit on a chip of this size, class by class, and those of one's own. Good
/// as long as those are.
std::vector<Piece> pieces_for(std::size_t image_size, std::span<const Layout> own);

}  // namespace rtcmend
