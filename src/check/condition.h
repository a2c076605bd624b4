#pragma once

#include <cstdint>
#include <optional>

#include "base/image.h"

namespace rtcmend {

/// Something that counts only when some bits elsewhere have a value.
struct Condition {
  Address at = 0;
  std::uint8_t mask = 0xFF;
  std::uint8_t value = 0;  ///< wanted, already masked

  /// Nothing when the byte is unknown.
  std::optional<bool> holds(const Image& image) const {
    const auto byte = image.at(at);
    if (!byte) return std::nullopt;
    return (*byte & mask) == value;
  }
  friend bool operator==(const Condition&, const Condition&) = default;
};

}  // namespace rtcmend
