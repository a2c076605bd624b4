#pragma once

#include <cstddef>

#include "discover/dump_set.h"

namespace rtcmend {

/// The arithmetic of evidence for checks of one width: how many models the question leaves open,
/// and what the dumps can do about them.
struct Space {
  unsigned width = 16;
  double models = 0;           ///< formulas at places, constants not counted
  std::size_t pairs = 0;       ///< pairs of dumps that say something new
  double by_luck = 0;          ///< models that random data would be expected to satisfy
  std::size_t decide = 0;      ///< how many dumps decide, when each says something new
  std::size_t more_dumps = 0;  ///< how many are missing
  bool listed = false;         ///< few enough remain that looking for them means something
};

/// A model counts as found, not as luck, when fewer than this many would be expected by luck.
constexpr double decisive_chance = 0.01;

/// `list_up_to`: with more models than that by luck, none are looked for.
Space measure_space(const DumpSet& evidence, const Question& question, unsigned width,
                    double list_up_to);

/// How many models of the space random data would satisfy by luck, given that much evidence.
double chance_of(const Space& space, double evidence_bits);

}  // namespace rtcmend
