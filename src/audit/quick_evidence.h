#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "audit/field_pool.h"
#include "audit/plain_copy.h"
#include "audit/recall.h"
#include "base/image.h"
#include "check/check.h"
#include "identify/at_hand.h"

namespace rtcmend {

/// What the own fields of many pieces come to. Layouts share most of their fields, so each
/// different field is weighed once for an image, and what was weighed before is remembered. For
/// images with every byte known.
class QuickEvidence {
 public:
  /// The pieces must outlive it.
  explicit QuickEvidence(std::span<const Piece> pieces);

  /// From now on a new image is meant.
  void look_at_next() { ++image_number_; }
  /// The bits that the fields of the piece with this index come to in the image looked at.
  double bits(std::size_t piece, const EvidenceAtHand& evidence);

 private:
  struct Weighed {
    std::optional<DecidingBits> resting;  ///< nothing when it rests on too much to be remembered
    std::optional<PlainCopy> copy;  ///< then that it is true, or blank, says all about its bits
    bool asks_checks;               ///< rests on whether one of `proving` holds, too
    Recall<double> recall;
    double bits = 0;
    std::size_t weighed_in = 0;  ///< the image that `bits` is of
  };
  /// What several fields' use rests on: asked once for each image.
  struct Use {
    std::vector<UsedWhile> when;
    bool holds = true;
    std::size_t asked_in = 0;
  };
  /// A field of one piece.
  struct Own {
    std::size_t number;                ///< in the pool
    std::optional<std::size_t> use;    ///< which of uses_; nothing when it is always in use
    std::vector<std::size_t> proving;  ///< checks_proving()
    friend bool operator==(const Own&, const Own&) = default;
  };

  static Weighed weighed(const FieldPool::Entry& entry);
  /// The fields of one piece that say something.
  struct OfPiece {
    std::vector<Own> fields;
    std::vector<std::size_t> uses;  ///< when every field has a condition: the different ones
    bool asks_checks = false;       ///< one of them rests on whether a check holds
    std::size_t same_as = 0;        ///< the first piece with just these fields
    double bits = 0;                ///< of the image `weighed_in`, where no check has a say
    std::size_t weighed_in = 0;
  };

  OfPiece of_piece(const Piece& piece);
  bool holds(std::size_t use, const Image& image);
  double sum(const OfPiece& of, const Piece& piece, const EvidenceAtHand& evidence);
  std::optional<std::size_t> use_of(const Field& field);
  double bits_of_plain(std::size_t number, const Image& image);
  double bits_of_copy(const Own& own, const Piece& piece, const EvidenceAtHand& evidence);

  std::span<const Piece> pieces_;
  FieldPool pool_;
  std::size_t image_number_ = 0;
  std::vector<Use> uses_;
  std::vector<Weighed> weighed_;   ///< by number in the pool
  std::vector<OfPiece> of_piece_;  ///< in the order of the pieces
};

}  // namespace rtcmend
