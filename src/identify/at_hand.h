#pragma once

#include <cstddef>
#include <span>

#include "base/image.h"
#include "check/check.h"
#include "identify/pieces.h"

namespace rtcmend {

/// What one image says of each piece, however it was come by.
class EvidenceAtHand {
 public:
  /// results: one for each of Pieces::all_checks(). All must outlive it. chip_bits: of
  /// evidence_of_chip().
  EvidenceAtHand(const Image& image, std::span<const CheckResult> results, double chip_bits)
      : image_(image), results_(results), chip_bits_(chip_bits) {}
  virtual ~EvidenceAtHand() = default;

  const Image& image() const { return image_; }
  /// Results of the piece's own checks.
  std::span<const CheckResult> checks(const Piece& piece) const {
    return results_.subspan(piece.first_result, piece.result_count);
  }
  /// How a check of the piece's layout stands, by its number there: one of its own, or of the class
  /// that it adds to.
  const CheckResult& check(const Piece& piece, std::size_t number) const {
    return results_[number < piece.first_check ? piece.first_class_result + number
                                               : piece.first_result + number - piece.first_check];
  }
  double chip_bits() const { return chip_bits_; }

  /// What the piece's own fields come to.
  virtual double field_bits(const Piece& piece) = 0;
  /// can_stand_in() on the image.
  virtual bool alike(const Piece& plain, const Piece& other) = 0;

 private:
  const Image& image_;
  std::span<const CheckResult> results_;
  double chip_bits_;
};

}  // namespace rtcmend
