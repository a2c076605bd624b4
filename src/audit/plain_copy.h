#pragma once

#include <cstdint>
#include <optional>

#include "audit/recall.h"
#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// A number over whole bytes, any of whose values is legal, that shall be the same as another one:
/// what it says rests on little more than whether it is.
class PlainCopy {
 public:
  /// Nothing for any other field.
  static std::optional<PlainCopy> of(const Field& field, const Layout& layout);

  bool is_true(const Image& image) const { return own_.key(image) == original_.key(image); }
  /// All bits 0, or all 1.
  bool is_blank(const Image& image) const {
    const std::uint64_t bits = own_.key(image);
    return bits == 0 || bits == ~std::uint64_t{0} >> (64 - own_.width());
  }

 private:
  PlainCopy(const Field& field, const Field& original);

  DecidingBits own_, original_;
};

}  // namespace rtcmend
