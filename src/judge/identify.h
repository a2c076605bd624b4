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

/// Every layout of the image's size, best first.
struct Identification {
  std::vector<Candidate> candidates;
  /// The layout whose lead is clear; empty when none is.
  std::string clear;
};

/// Ranks layouts by evidence: checks that hold, fields that make sense. Of several layouts with the
/// same checks, the one that claims least is taken unless another's fields speak clearly for it.
Identification identify(const Image& image, const std::vector<Layout>& layouts);

}  // namespace rtcmend
