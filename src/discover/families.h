#pragma once

#include <string>
#include <vector>

#include "discover/evidence.h"

namespace rtcmend {

/// Fits that no image can split which differs from the dumps only in bytes that already vary. They
/// ask for the same stored bytes in all of those images.
struct Kin {
  std::vector<Fit> members;
  Address at = 0;
  unsigned width = 16;
  /// What they ask for in a set of trial images, a string for each stored byte.
  std::vector<std::string> asked;
};

/// Sorts fits into families, in the order of their first members.
std::vector<Kin> gather_families(const Evidence& evidence, const std::vector<Fit>& fits);

/// Whether an 8-bit family only asks for one byte of what a 16-bit one asks for: the low byte of a
/// sum is a sum too.
bool is_part_of(const Kin& part, const Kin& whole);

}  // namespace rtcmend
