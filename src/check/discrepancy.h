#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "base/image.h"
#include "check/check.h"

namespace rtcmend {

/// How far a check is from holding: stored less computed for sums and balances, the bits in which
/// they differ for the other rules. Either way each byte moves the gap by itself, whatever the
/// others hold, so that thousands of changes can be tried without computing the check anew.
class Discrepancy {
 public:
  /// The check must be one that evaluate() can judge in this image. What its conditions leave out
  /// there stays out.
  Discrepancy(const Check& check, const Image& image);

  /// By how much each bit of a byte moves the gap when it goes from 0 to 1.
  using Moves = std::array<std::uint16_t, 8>;

  /// 0 = the stored value is the computed one.
  std::uint16_t now() const { return now_; }
  /// None of a byte that is neither covered nor stored moves the gap.
  const Moves& moves(Address at) const { return moves_[at]; }
  bool rests_on(Address at) const { return moves_[at] != Moves{}; }

  /// Whether moves add up; otherwise they are xored.
  bool carries() const { return carries_; }
  /// A gap with a move made, and with one taken back.
  std::uint16_t joined(std::uint16_t gap, std::uint16_t move) const {
    return static_cast<std::uint16_t>(carries_ ? (gap + move) & mask_ : gap ^ move);
  }
  std::uint16_t parted(std::uint16_t gap, std::uint16_t move) const {
    return static_cast<std::uint16_t>(carries_ ? (gap - move) & mask_ : gap ^ move);
  }
  /// What a gap becomes when the byte changes.
  std::uint16_t moved(std::uint16_t gap, Address at, std::uint8_t from, std::uint8_t to) const {
    const Moves& moves = moves_[at];
    if (carries_) return static_cast<std::uint16_t>((gap + moves[0] * (to - from)) & mask_);
    for (unsigned changed = from ^ to, bit = 0; changed != 0; changed >>= 1, ++bit)
      if ((changed & 1U) != 0) gap ^= moves[bit];
    return gap;
  }
  /// The values of a byte that now holds `from`, ascending, with which the gap would be none.
  std::vector<std::uint8_t> closing(Address at, std::uint8_t from) const;

 private:
  void add_covered(const Check& check, const Addresses& covered);
  void add(Address at, const Moves& moves);

  bool carries_;  ///< adding up, not xoring
  std::uint16_t mask_;
  std::uint16_t now_;
  std::array<Moves, Image::large_size> moves_{};
};

}  // namespace rtcmend
