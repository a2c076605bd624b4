#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "base/image.h"
#include "check/check.h"
#include "check/crc.h"

namespace rtcmend {

/// The checks of many layouts, made ready to be evaluated on one image after another: each image is
/// passed over once, and a plain sum is then the difference of two running sums; where there are
/// only a few, each is added up by itself. evaluate() is the plain version that the tests hold this
/// against.
class Sweep {
 public:
  /// The checks must outlive it.
  explicit Sweep(std::span<const Check* const> checks);

  /// One result a check, in their order, as evaluate() would give it; good until the next call.
  /// Every byte of the image must be known, and the checks must fit into it.
  std::span<const CheckResult> operator()(const Image& image);

 private:
  /// How a check is best evaluated.
  enum class Way { sum, crc, plainly };
  struct Prepared {
    Way way;
    const Check* check;
    std::size_t crc = 0;         ///< which of crcs_
    std::uint32_t all_ones = 0;  ///< what the covered bytes add up to when each is FF
    /// Sums of all rules are straight lines: what is stored over bytes that add up to s is the low
    /// bits of at_zero + s * step.
    std::uint16_t at_zero = 0, step = 0, mask = 0;
    Address high = 0, low = 0;  ///< of the stored bytes; the same one for 8 bits
    /// The first stretch, and whether it is the only one.
    Range first{};
    bool is_one_stretch = true;
  };

  Prepared prepare(const Check& check);
  void pass_over(const Image& image);
  std::uint32_t sum_of(const Range& range, const Image& image) const;
  std::uint32_t sum_of_covered(const Prepared& prepared, const Image& image) const;

  std::vector<Prepared> prepared_;
  std::vector<Crc> crcs_;
  std::vector<CheckResult> results_;
  std::size_t sums_ = 0;                                        ///< stretches to be added up
  std::array<std::uint32_t, Image::large_size + 1> running_{};  ///< of all bytes below an address
};

}  // namespace rtcmend
