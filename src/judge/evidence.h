#pragma once

#include <string>
#include <vector>

#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// What speaks for a layout, in bits: 16 = random data would do as well once in 65,536 times.
/// Negative = it speaks against.
struct Evidence {
  double bits = 0;
  std::vector<std::string> why;  ///< in words, a piece each
};

/// Checks that hold speak for a layout by their width. Checks that fail, or that cover nothing but
/// 00 or FF, speak against it, unless a small damage would explain the failure.
Evidence evidence_of_checks(const Layout& layout, const Image& image);

/// Legal values where most codes would not be, and fields that agree with those they follow. Bits
/// all 0 or all 1 prove nothing.
Evidence evidence_of_fields(const Layout& layout, const Image& image);

}  // namespace rtcmend
