#pragma once

#include <vector>

#include "base/image.h"
#include "check/check.h"

namespace rtcmend {

/// A failing check prepared for thousands of trials: would it hold with one or two bytes changed?
/// It may say yes too often where conditions hang on the bytes tried, never no; evaluate() has the
/// last word.
class Probe {
 public:
  /// The check must be one that evaluate() can judge in this image.
  Probe(const Check& check, const Image& image);

  bool holds_with(Address at, std::uint8_t value) const;
  bool holds_with(Address first, std::uint8_t first_value, Address second,
                  std::uint8_t second_value) const;

 private:
  struct Change {
    Address at;
    std::uint8_t value;
  };
  bool holds_with(std::vector<Change> changes) const;
  bool decides(Address at) const;

  const Check& check_;
  Addresses covered_;  ///< that count, in the check's order
  std::vector<std::uint8_t> bytes_;
  Addresses stored_at_;
  std::vector<std::uint8_t> stored_;
  Addresses conditions_;  ///< bytes that decide what counts
};

}  // namespace rtcmend
