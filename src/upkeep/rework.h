#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/advice.h"
#include "chip/part.h"

namespace rtcmend {

/// One step of the work at the bench.
struct WorkStep {
  std::string title;  ///< "Cut the old cell off"
  Advice text;
};

/// What is to be done with the part.
enum class Rework {
  potted,   ///< the potting is opened
  outside,  ///< the cell stands on the board and has pins of its own
  supply,   ///< the cell stands on the board and feeds the part's only supply pin
  never,    ///< nothing: a plain cell must not go on it
  unknown   ///< nothing: the catalogue does not say which pins feed it
};

Rework rework_of(const std::optional<Part>& part);
/// Whether a cell of its own choice can go on the part at all.
bool has_cell_work(Rework rework);
/// In the order of the work, for a cell that must be charged or must not. No part = a potted one
/// whose number is not known.
std::vector<WorkStep> rework_steps(const std::optional<Part>& part, bool rechargeable);
/// Where these steps come from.
std::string rework_source(const std::optional<Part>& part);

/// A part that can be fitted instead of the rework.
struct Alternative {
  std::string part;
  std::string changes;             ///< at the board
  std::vector<std::string> image;  ///< what changes for the bytes that go into it
  std::string source;
};

/// What can take the part's place, in the order of the catalogue. None for an unknown part.
std::vector<Alternative> alternatives(const std::optional<Part>& part);

}  // namespace rtcmend
