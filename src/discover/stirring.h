#pragma once

#include <span>
#include <string>
#include <vector>

#include "discover/session.h"

namespace rtcmend {

/// Two dumps with one label that do not agree, where everything else says that they should.
struct Contradiction {
  std::string setting, value;
  std::string one, other;  ///< the dumps
  Addresses bytes;
  std::string text;  ///< in plain words
};

/// What moves by itself in a session, set apart from what settings move.
struct Stirring {
  Addresses restless;  ///< bytes that differ although nothing was changed
  std::vector<Contradiction> contradictions;
  std::vector<bool> settled;  ///< by address: known, RAM, and it stays when nothing is changed
  /// By address, then visit: false where the visit's dumps contradict each other.
  std::vector<std::vector<bool>> agrees;
};

/// Known RAM bytes that are not the same in all of these.
Addresses bytes_that_differ(std::span<const Image> images);

/// Clock bytes are left out altogether, and so is what is `passed_over`: check bytes, which follow
/// from others, and a password's.
Stirring find_stirring(const std::vector<Step>& steps, const std::vector<Visit>& visits,
                       const Addresses& passed_over);

}  // namespace rtcmend
