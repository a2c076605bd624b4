#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "chip/part.h"

namespace rtcmend {

/// The parts of the family, in the order of the catalogue (layouts/chips.json).
const std::vector<Part>& known_parts();
/// A part by the number on its back: case, blanks, dashes and a trailing "+" do not count. Refuses
/// (Error) an unknown one with the nearest numbers.
const Part& need_part(std::string_view name);

/// A part that can take another one's place.
struct Successor {
  const Part* part;
  const Replacement* how;
};
/// What can take the place of `part`, in the order of the catalogue.
std::vector<Successor> successors(const Part& part);

/// How a potted part of 24 pins is fed whose number is not known: as the first of the family was.
const CellInput& usual_cell_input();

}  // namespace rtcmend
