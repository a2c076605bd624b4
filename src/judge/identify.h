#pragma once

#include <string>
#include <vector>

#include "base/image.h"
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

}  // namespace rtcmend
