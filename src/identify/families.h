#pragma once

#include <vector>

#include "identify/at_hand.h"
#include "identify/pieces.h"

namespace rtcmend {

/// What speaks for a trait by its own fields and checks, in bits; its class is taken for granted.
struct TraitWeight {
  double bits = 0;
  bool holds = false;      ///< one of its checks holds, over bytes that are not all the same
  bool ruled_out = false;  ///< one of its checks fails
  bool one_slip = false;   ///< though one flipped bit would explain that
};

/// Whether `one_slip` is wanted; it takes a while, and seldom matters.
enum class Slips { looked_for, passed_over };

/// The answer to one family's question.
struct FamilyAnswer {
  const PieceFamily* family = nullptr;
  const Piece* taken = nullptr;  ///< null: none of its traits, as far as can be told
  bool is_presumed = false;      ///< nothing speaks for it but that its relatives are ruled out
  double bits = 0;
  /// Those that fit alike, `taken` first when there is one. Of a family in which nothing is taken
  /// all that is not ruled out, when it is asked for.
  std::vector<const Piece*> tied;
  std::vector<const Piece*> one_slip;  ///< ruled out by a check that one flipped bit would mend
  /// Nothing says which of `tied` it is, or that it is any; only told when it is asked for.
  bool is_open() const { return taken == nullptr && !tied.empty(); }
};

/// Whether something is to be said of families in which nothing is taken.
enum class OpenTies { told, untold };

/// Answers each family of the class of which a version was found (`whole`), each by its own
/// evidence.
std::vector<FamilyAnswer> answer_families(const Piece& whole, const Pieces& pieces,
                                          EvidenceAtHand& evidence, OpenTies open);

}  // namespace rtcmend
