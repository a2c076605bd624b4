#pragma once

#include <bitset>
#include <cstddef>
#include <vector>

#include "layout/layout.h"
#include "repair/repair.h"

namespace rtcmend {

/// Which fields of a layout have to be asked again when a byte changes: those whose reading rests
/// on it (bits, escape byte, condition), and those that follow them.
class FieldIndex {
 public:
  /// The layout must outlive it.
  explicit FieldIndex(const Layout& layout);

  /// By number in the layout, ascending.
  std::vector<std::size_t> resting_on(const std::vector<Patch>& patches) const;

 private:
  std::vector<std::bitset<Image::large_size>> places_;  ///< of each field
};

}  // namespace rtcmend
