#pragma once

#include <array>
#include <bitset>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>

#include "base/ranges.h"

namespace rtcmend {

/// The chip's bytes, 64 or 128, each known or unknown. A dump of the RAM part alone leaves the
/// clock bytes unknown, and unknown is never the same as zero.
class Image {
 public:
  static constexpr std::size_t small_size = 64;
  static constexpr std::size_t large_size = 128;
  /// Where the RAM starts, behind ten clock bytes and four registers (MC146818A).
  static constexpr Address ram_start = 0x0E;

  /// All bytes unknown. size: 64 or 128, anything else is refused.
  explicit Image(std::size_t size);
  /// All bytes known. Refused unless there are 64 or 128 of them.
  explicit Image(std::span<const std::uint8_t> bytes);

  std::size_t size() const { return size_; }
  bool contains(Address at) const { return at < size_; }
  /// False for addresses outside the image.
  bool known(Address at) const { return at < size_ && known_[at]; }
  /// The byte, or nothing when it is unknown or outside.
  std::optional<std::uint8_t> at(Address at) const;
  /// The byte where the caller has made sure that it is known; 0 otherwise.
  std::uint8_t operator[](Address at) const { return bytes_[at & 0x7F]; }

  /// Makes a byte known. `at` must lie inside the image.
  void set(Address at, std::uint8_t value);
  /// Makes a byte unknown.
  void forget(Address at);

  /// The same bytes on a chip of another size: what lies beyond is dropped, or unknown.
  Image with_size(std::size_t size) const;

  bool all_known() const { return known_.count() == size_; }
  /// Addresses of the unknown bytes, ascending.
  Addresses unknown() const;
  /// All bytes, unknown ones as 0: for callers that look at known() as well.
  std::span<const std::uint8_t> bytes() const { return {bytes_.data(), size_}; }

  friend bool operator==(const Image&, const Image&) = default;

 private:
  std::array<std::uint8_t, large_size> bytes_{};  // 0 where unknown, so that == can compare
  std::bitset<large_size> known_;
  std::size_t size_;
};

}  // namespace rtcmend
