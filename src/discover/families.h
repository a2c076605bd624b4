#pragma once

#include <string>
#include <vector>

#include "discover/dump_set.h"

namespace rtcmend {

/// Matches that no image can split which differs from the dumps only in bytes that already vary.
/// They ask for the same stored bytes in all of those images.
struct Kin {
  std::vector<Match> members;
  Address at = 0;
  unsigned width = 16;
  /// What they ask for in a set of trial images, a string for each stored byte.
  std::vector<std::string> asked;
};

/// Sorts matches into families, in the order of their first members.
std::vector<Kin> gather_families(const DumpSet& evidence, const std::vector<Match>& matches);

/// Whether an 8-bit family only asks for one byte of what a 16-bit one asks for: the low byte of a
/// sum is a sum too.
bool is_part_of(const Kin& part, const Kin& whole);

/// Whether two matches are one CRC but for the polynomial, and the polynomials share a factor of
/// half their degree: what agrees with one then agrees with the other more often than by luck.
bool are_siblings(const Match& a, const Match& b);

/// Whether two matches at different places hold in the same images, so that no good dump can ever
/// split them: when all bytes of a range and its stored byte xor to a constant, either end of the
/// row may be called the stored one.
bool are_twins(const DumpSet& evidence, const Match& a, const Match& b);

}  // namespace rtcmend
