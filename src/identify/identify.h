#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "base/image.h"
#include "identify/evidence.h"
#include "layout/layout.h"

namespace rtcmend {

/// How well a layout fits an image.
struct Candidate {
  std::string layout;
  double score = 0;  ///< evidence in bits: 16 = one in 65,536 by chance
  std::string why;   ///< in words
};

/// The layouts that have something for them, best first.
struct Identification {
  /// Those that are tied for the first place carry the same score, the one that claims least first.
  std::vector<Candidate> candidates;
  /// The layout that can be taken as known; empty when there is none. In a tie it is the first, if
  /// it can stand in for all others on this image (tie.h): what it says and seals is then right
  /// whichever is the machine's own.
  std::string clear;
  std::vector<std::string> tied;  ///< two or more layouts that the bytes do not tell apart
  /// What would settle the tie: a sentence for each tied layout but the first.
  std::vector<std::string> settle;
  /// The dump has 128 bytes whose halves repeat each other; the candidates are layouts of 64 bytes,
  /// judged by the lower half.
  bool mirrored = false;
};

/// Ranks the layouts of the image's size by evidence: checks that hold, fields that make sense, a
/// clock that does. Noise gets no candidates. Layouts without checks are never clear, except the
/// only one of its size. layouts: of any size.
Identification identify(const Image& image, const std::vector<Layout>& layouts);

/// The layout that identify() calls clear, found without a word about the others; null when none
/// is, or when the dump is mirrored: a layout of 64 bytes cannot be laid on 128.
const Layout* recognise(const Image& image, const std::vector<Layout>& layouts);

// The steps of identify(), for those who come by the evidence in another way.

/// What speaks for one layout, in bits.
struct Score {
  const Layout* layout = nullptr;
  double bits = 0;
  double own_bits = 0;   ///< without what every clock chip's dump has for it
  bool damaged = false;  ///< a check fails, though a small damage would explain it
};
Score score(const Layout& layout, const CheckWeight& checks, double field_bits, double chip_bits);

/// Those with something for them, best first; the first `tied` of them the best does not clearly
/// lead, and they carry the same score, the one that claims least first.
struct Ranking {
  std::vector<Score> scores;
  std::size_t tied = 0;
};
Ranking rank(std::vector<Score> scores);

/// can_stand_in() on the image in question.
using StandIn = std::function<bool(const Layout& plain, const Layout& other)>;

/// The layout that the evidence makes clear; null when none is.
const Layout* clear_one(const Ranking& ranking, const StandIn& can_stand_in);

/// The only layout of a size needs no evidence; null when there are none or several.
const Layout* only_one_of_size(const std::vector<Layout>& layouts, std::size_t size);

}  // namespace rtcmend
