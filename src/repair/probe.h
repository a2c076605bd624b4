#pragma once

#include <bitset>
#include <span>
#include <vector>

#include "base/image.h"
#include "check/check.h"
#include "check/discrepancy.h"
#include "repair/repair.h"

namespace rtcmend {

/// A failing check prepared for thousands of trials: would it hold with some bytes changed? It may
/// say yes too often where conditions hang on the bytes tried, never no; evaluate() has the last
/// word.
class Probe {
 public:
  /// The check must be one that evaluate() can judge in this image.
  Probe(const Check& check, const Image& image);

  bool holds_with(std::span<const Patch> patches) const;
  /// The values of a byte, ascending, with which the check would hold.
  std::vector<std::uint8_t> values(Address at) const;
  /// Whether changing the byte can make a difference.
  bool rests_on(Address at) const { return decides_[at] || gap_.rests_on(at); }
  /// Whether a condition looks at the byte: the gap then says nothing about changes of it.
  bool decides(Address at) const { return decides_[at]; }
  const Discrepancy& gap() const { return gap_; }

 private:
  Image image_;
  Discrepancy gap_;
  std::bitset<Image::large_size> decides_;  ///< what counts, by conditions
};

}  // namespace rtcmend
