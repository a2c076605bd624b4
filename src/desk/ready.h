#pragma once

#include <string>
#include <vector>

#include "base/image.h"
#include "chip/part.h"
#include "judge/examine.h"
#include "layout/layout.h"

namespace rtcmend {

/// Whether a dump was misread: its bytes are not what the chip holds, whatever was done to them
/// since.
bool is_misread(const std::vector<Finding>& reading);

/// What an image is about to be used for.
struct Leaving {
  bool writes_clock = false;   ///< its time goes into the chip: then the clock must be right
  const Part* part = nullptr;  ///< the chip that it is for; null = not said
  /// What it was before it was changed; null = as it is, or made from nothing. A check that was
  /// sealed since vouches for nothing.
  const Image* before = nullptr;
};

/// Whether an image may leave the desk.
struct Readiness {
  Examination examination;         ///< of the image as it is now, with the reading's findings
  std::vector<Finding> obstacles;  ///< why it may not leave; empty = it may
  bool misread = false;

  bool is_ready() const { return obstacles.empty(); }
};

/// Judges an image that is about to be written. A dump that was misread, settings that are not
/// proven and a part that cannot take it stop every writing; a clock that is not right stops only
/// what writes the clock. reading: what is wrong with the reading of the dump that it began as;
/// empty for an image made from nothing.
Readiness readiness(const Image& image, const Layout& layout, const std::vector<Finding>& reading,
                    const Leaving& leaving);

/// Refuses (Error) what is not ready, naming the obstacles. name: what it was made from.
void need_ready(const Readiness& readiness, const std::string& name);

}  // namespace rtcmend
