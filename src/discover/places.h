#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "discover/dump_set.h"

namespace rtcmend {

/// Where a check could be stored.
struct Place {
  Address at = 0;
  Order order = Order::high_first;
};

/// Every place of this width that the question leaves open and that changed at least once. Bytes
/// that never change are taken for a setting, unless the question names the place: two dumps may
/// well have the same check bytes.
std::vector<Place> open_places(const DumpSet& evidence, const Question& question, unsigned width);

/// Whether a range leaves the stored bytes of a place alone.
bool stands_clear(const DumpSet& evidence, const Range& range, Address at, unsigned width);

/// Looks up which places changed by a value: first one bit of a map that fits the fastest memory,
/// then the sorted list behind it.
class ChangeIndex {
 public:
  /// One way in which a place shows a value.
  struct Entry {
    std::uint16_t value;
    std::uint16_t place;  ///< index into the places
    bool mirrored;        ///< shown by the mirrored bits of what is stored
  };

  explicit ChangeIndex(std::vector<Entry> entries);

  bool has(std::uint16_t value) const { return (map_[value >> 6] >> (value & 63U) & 1U) != 0; }
  const std::array<std::uint64_t, 1024>& map() const { return map_; }
  std::span<const Entry> find(std::uint16_t value) const;

 private:
  std::vector<Entry> entries_;  // by value
  std::array<std::uint64_t, 1024> map_{};
};

}  // namespace rtcmend
