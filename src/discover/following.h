#pragma once

#include <string>
#include <vector>

#include "discover/stirring.h"

namespace rtcmend {

/// One bit of the chip, 7 the highest.
struct Bit {
  Address at = 0;
  std::uint8_t bit = 0;

  friend auto operator<=>(const Bit&, const Bit&) = default;
};

/// A setting and the bits that are its own.
struct Follower {
  std::string setting;
  std::vector<Bit> bits;           ///< by address, highest first; empty: nothing followed it
  std::vector<std::string> drags;  ///< settings whose bits it moves along
};

/// Bits that move with several settings and belong to none of them.
struct Shared {
  std::vector<std::string> settings;
  std::vector<Bit> bits;
};

struct Following {
  std::vector<Follower> followers;  ///< every setting, in the order of the session
  std::vector<Shared> shared;
};

/// Finds the bits that follow each setting. A bit that moves with several settings belongs to the
/// one whose own values explain every state that the others bring about (those drag it along), and
/// to none when there is no such one, or more than one: then it is worked out from them, as a count
/// is. So are bits of the same byte that move with one of them alone and tell nothing about it that
/// its other bits do not: the upper bit of a count needs two settings to move.
Following find_following(const std::vector<Step>& steps, const std::vector<Visit>& visits,
                         const Stirring& stirring);

}  // namespace rtcmend
