#pragma once

#include <vector>

#include "images/planted_damage.h"

namespace rtcmend {

/// An image that may be the right one, and the log2 of how often that and the dump come together.
struct Guess {
  Image right;
  double bits;
};

/// What somebody would answer who knew how the machines and the damages of the plants are drawn,
/// and had the dump and its text column: likeliest first. Nobody can do better. Slow and obvious.
/// Two slips are tried for dumps that were typed. `only`: as if it were known that the damage is of
/// this kind.
std::vector<Guess> best_guesses(const Plant& plant, const Layout& layout,
                                std::string_view only = {});

/// Of guesses that are equally good one is taken by chance: how likely the first is right.
double chance_of_first(const std::vector<Guess>& guesses, const Image& right);

}  // namespace rtcmend
