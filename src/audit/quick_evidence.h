#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "audit/field_pool.h"
#include "audit/plain_copy.h"
#include "audit/recall.h"
#include "base/image.h"
#include "check/check.h"
#include "identify/pieces.h"

namespace rtcmend {

/// What the own fields of many pieces come to. Layouts share most of their fields, so each different
/// field is weighed once for an image, and what was weighed before is remembered. For images with
/// every byte known.
class QuickEvidence {
 public:
  /// The pieces must outlive it.
  explicit QuickEvidence(std::span<const Piece> pieces);

  /// Weighs in this image every field that no check has a say in.
  void look_at(const Image& image);
  /// Whether a check of the piece's layout holds, by its number there.
  using Holds = std::function<bool(std::size_t check)>;
  /// The bits that the fields of the piece with this index come to in the image looked at last.
  double bits(std::size_t piece, const Image& image, const Holds& holds);

 private:
  struct Weighed {
    std::optional<DecidingBits> resting;  ///< nothing when it rests on too much to be remembered
    std::optional<PlainCopy> copy;  ///< then that it is true, or blank, says all about its bits
    bool asks_checks;               ///< rests on whether one of `proving` holds, too
    Recall<double> recall;
    double bits = 0;
  };
  /// A field of one piece.
  struct Own {
    std::size_t number;                ///< in the pool
    std::vector<std::size_t> proving;  ///< checks_proving()
  };

  static Weighed weighed(const FieldPool::Entry& entry);
  double bits_of_copy(const Own& own, const Layout& layout, const Image& image,
                      const Holds& holds);

  std::span<const Piece> pieces_;
  FieldPool pool_;
  std::vector<Weighed> weighed_;            ///< by number in the pool
  std::vector<std::vector<Own>> of_piece_;  ///< in the order of the piece
};

}  // namespace rtcmend
