#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "base/image.h"
#include "base/ranges.h"
#include "layout/layout.h"

namespace rtcmend {

/// What dumps of a machine say for a layout and against it: counts, never bytes.
struct LayoutEvidence {
  struct OfCheck {
    std::string id;
    std::size_t held = 0;    ///< dumps in which it holds on data that is not blank
    std::size_t failed = 0;  ///< dumps in which it does not hold; the rest says nothing
  };
  struct OfField {
    std::string id;
    std::size_t legal = 0, odd = 0;  ///< dumps in which the bits have a meaning, and have none
    std::size_t values = 0;  ///< different ones seen; of one alone nobody knows what it does
  };
  std::size_t dumps = 0;
  std::size_t different = 0;  ///< by their RAM bytes
  std::vector<OfCheck> checks;
  std::vector<OfField> fields;
  Addresses never_changed;  ///< RAM bytes that all these dumps hold alike

  /// Whether no dump speaks against it.
  bool is_unopposed() const;
};

/// Dumps too small for the layout are refused (Error) before.
LayoutEvidence evidence_for(const Layout& layout, std::span<const Image> dumps);

}  // namespace rtcmend
