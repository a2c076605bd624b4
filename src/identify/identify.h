#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/image.h"
#include "identify/at_hand.h"
#include "identify/evidence.h"
#include "identify/families.h"
#include "identify/pieces.h"
#include "layout/layout.h"

namespace rtcmend {

/// How well a layout fits an image.
struct Candidate {
  std::string layout;
  double score = 0;  ///< evidence in bits: 16 = one in 65,536 by chance
  std::string why;   ///< in words
};

/// What is said of one family of traits.
struct FamilyWord {
  std::string family;
  std::string trait;  ///< the one that is taken; empty = none of them
  double score = 0;
  std::string why;                ///< in words
  std::vector<std::string> tied;  ///< traits that fit alike, when that is more than one
  bool open = false;              ///< nothing says which of `tied` it is, or that it is any
};

/// What fits an image: the class by its evidence, then each family of its traits by its own.
struct Identification {
  /// Layouts that have something for them, best first; those of built-in classes with the traits
  /// that were found, where they lead. Those tied for the first place carry the same score, the one
  /// that claims least first.
  std::vector<Candidate> candidates;
  /// The layout that can be taken as known; empty when there is none. In a tie it is the first, if
  /// it can stand in for all others on this image (alike.h): what it says and seals is then right
  /// whichever is the machine's own.
  std::string clear;
  std::vector<std::string> tied;  ///< two or more that the bytes do not tell apart
  /// What would settle the tie: a sentence for each tied layout but the first.
  std::vector<std::string> settle;
  /// Of the class that leads, in its order; empty for a layout of one's own.
  std::vector<FamilyWord> families;
  /// The dump has 128 bytes whose halves repeat each other; it is judged by the lower half.
  bool mirrored = false;
};

/// Ranks what is built in, and the layouts of one's own, by evidence: checks that hold, fields that
/// make sense, a clock that does. Noise gets no candidates. What has no checks is never clear.
Identification identify(const Image& image, std::span<const Layout> own = {});

/// The layout that identify() calls clear, found without a word about the others, and without the
/// words that only people read; nothing when none is. A mirrored dump is recognised by its lower
/// half.
std::optional<Layout> recognise(const Image& image, std::span<const Layout> own = {});

// The steps of identify(), for those who come by the evidence in another way.

/// What speaks for one layout, in bits.
struct Score {
  const Piece* piece = nullptr;
  double bits = 0;
  double own_bits = 0;   ///< without what every clock chip's dump has for it
  bool damaged = false;  ///< a check fails, though a small damage would explain it
};
Score score(const Piece& piece, const CheckWeight& checks, double field_bits, double chip_bits);

/// Those with something for them, best first; the first `tied` of them the best does not clearly
/// lead, and they carry the same score, the one that claims least first.
struct Ranking {
  std::vector<Score> scores;
  std::size_t tied = 0;
};
Ranking rank(std::vector<Score> scores);

/// The layout that the evidence makes clear; null when none is.
const Piece* clear_one(const Ranking& ranking, EvidenceAtHand& evidence);

/// All that is found out about an image. Points into the pieces.
struct Identified {
  Ranking ranking;
  const Piece* clear = nullptr;
  std::vector<FamilyAnswer> families;  ///< of the class that leads

  /// The traits that were found, beside that of the version that leads.
  std::vector<const Trait*> traits() const;
};
Identified find_out(const Pieces& pieces, EvidenceAtHand& evidence, OpenTies open);

/// A piece that stands for a layout, with the traits that were found for its class.
Layout layout_of(const Piece& whole, const std::vector<const Trait*>& traits);

}  // namespace rtcmend
