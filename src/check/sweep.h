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
/// passed over once, and a plain sum is then the difference of two running sums. evaluate() is the
/// plain version that the tests hold this against.
class Sweep {
 public:
  /// The checks must outlive it.
  explicit Sweep(const std::vector<const Check*>& checks);

  /// One result a check, in their order, as evaluate() would give it; good until the next call.
  /// Every byte of the image must be known, and the checks must fit into it.
  std::span<const CheckResult> operator()(const Image& image);

  /// Whether every byte of the range is 00, or every one FF, in the image passed over last.
  bool is_blank(const Range& range) const;

 private:
  /// How a check is best evaluated.
  enum class Way { sum, crc, plainly };
  struct Prepared {
    Way way;
    const Check* check;
    std::size_t covered = 0;  ///< bytes
    std::size_t crc = 0;      ///< which of crcs_
  };

  /// Of all bytes below an address: their sum, and how many are 00 and FF; side by side in one word
  /// so that one addition a byte does for all.
  using Running = std::uint64_t;

  Prepared prepare(const Check& check);
  void pass_over(const Image& image);
  Running of(const Range& range) const {
    return running_[range.last + std::size_t{1}] - running_[range.first];
  }
  Running of_covered(const Check& check) const;
  void evaluate_sum(const Prepared& prepared, CheckResult& result) const;
  void evaluate_crc(const Prepared& prepared, const Image& image, CheckResult& result) const;
  void set_blank(const Prepared& prepared, CheckResult& result) const;

  std::vector<Prepared> prepared_;
  std::vector<Crc> crcs_;
  std::vector<CheckResult> results_;
  std::array<Running, 0x101> running_{};
};

}  // namespace rtcmend
