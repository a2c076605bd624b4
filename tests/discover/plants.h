#pragma once

#include <vector>

#include "check/check.h"
#include "discover/random_dumps.h"

namespace rtcmend::test {

/// A check made up at random, for a search to find. Any kind, range, place, order and constant.
struct Plant {
  std::size_t size = 64;
  Check check;
};

Plant random_plant(Dice& dice, std::size_t size);

/// Random images, every byte of its own, in which the planted check holds.
std::vector<Image> images_with(const Plant& plant, Dice& dice, std::size_t count);

/// Whether a check holds on fresh images of the plant: it is the plant, or the same in other words.
bool is_the_plant(const Check& check, const Plant& plant, Dice& dice);

}  // namespace rtcmend::test
