#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/advice.h"
#include "chip/part.h"

namespace rtcmend {

/// One step of the work at the bench.
struct WorkStep {
  std::string title;  ///< "Cut the old cell out"
  Advice text;
};

/// What is to be done with the part: the potting opened, the cell outside changed, or nothing,
/// because a plain cell must not go on it.
enum class Rework { potted, outside, never };

Rework rework_of(const std::optional<Part>& part);
/// In the order of the work. No part = a potted one whose number is not known.
std::vector<WorkStep> rework_steps(const std::optional<Part>& part);
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
