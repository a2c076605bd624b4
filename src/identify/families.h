#pragma once

#include <functional>
#include <string>
#include <vector>

#include "base/image.h"
#include "identify/pieces.h"

namespace rtcmend {

/// What speaks for a trait by its own fields and checks, in bits; its class is taken for granted.
struct TraitWeight {
  double bits = 0;
  bool holds = false;      ///< one of its checks holds, over bytes that are not all the same
  bool ruled_out = false;  ///< one of its checks fails
  bool one_slip = false;   ///< though one flipped bit would explain that
};

/// Weighs the piece's own checks, given their results, and adds what its own fields come to. among:
/// how many traits of its family have a check, each of which may hold by chance.
TraitWeight weigh_trait(std::span<const CheckResult> results, double field_bits, std::size_t among,
                        const Image& image);

/// The answer to one family's question.
struct FamilyAnswer {
  std::string family;
  const Piece* taken = nullptr;  ///< null: none of its traits, as far as can be told
  bool is_presumed = false;      ///< nothing speaks for it but that its relatives are ruled out
  double bits = 0;
  std::vector<const Piece*> tied;  ///< those that fit alike, `taken` first when there is one
  std::vector<const Piece*> one_slip;  ///< ruled out by a check that one flipped bit would mend
  /// Nothing says which of `tied` it is, or that it is any.
  bool is_open() const { return taken == nullptr && !tied.empty(); }
};

/// What each trait weighs, and whether one layout may stand in for another on the image in
/// question.
using WeightOf = std::function<TraitWeight(const Piece& piece, std::size_t among)>;
using PiecesAlike = std::function<bool(const Piece& plain, const Piece& other)>;

/// Answers each family of the class that has several answers on a chip of this size, each by its
/// own evidence. `whole`: the version of the class that was found.
std::vector<FamilyAnswer> answer_families(const Piece& whole, std::span<const Piece> pieces,
                                          const WeightOf& weight_of, const PiecesAlike& alike);

}  // namespace rtcmend
