#pragma once

#include <functional>
#include <string>
#include <string_view>
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

/// Whether `one_slip` is wanted; it takes a while, and seldom matters.
enum class Slips { looked_for, passed_over };

/// Weighs the piece's own checks, given their results. among: how many traits of its family have a
/// check, each of which may hold by chance.
TraitWeight weigh_trait(std::span<const CheckResult> results, std::size_t among, const Image& image,
                        Slips slips);

/// The answer to one family's question.
struct FamilyAnswer {
  std::string_view family;
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

/// What each trait weighs, and whether one layout may stand in for another on the image in
/// question.
using WeightOf = std::function<TraitWeight(const Piece& piece, std::size_t among, Slips slips)>;
using PiecesAlike = std::function<bool(const Piece& plain, const Piece& other)>;

/// How much is to be said of families that are left open.
enum class OpenTies { told, untold };

/// Answers each family of the class of which a version was found (`whole`), each by its own
/// evidence.
std::vector<FamilyAnswer> answer_families(const Piece& whole, const Pieces& pieces,
                                          const WeightOf& weight_of, const PiecesAlike& alike,
                                          OpenTies open);

}  // namespace rtcmend
