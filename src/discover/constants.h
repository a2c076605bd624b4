#pragma once

#include <vector>

#include "check/check.h"
#include "discover/dump_set.h"

namespace rtcmend {

/// The constants of a match, found from the first dump, as the rules of a check. One family of
/// rules that no dump can tell apart comes back in all its customary wordings, likeliest first: a
/// negated sum, a complemented sum and a balance are the same thing with different constants, and
/// so are the pairs of start value and final xor of a CRC over one range. Never empty.
std::vector<Rule> constants_of(const DumpSet& evidence, const Match& match);

/// Whether the constant is one that programmers pick: a sum from 0, a CRC from 0 or all ones.
bool has_customary_constant(const Rule& rule);

/// The match as a check with this rule, its holes cut out of the range. Its id is made from kind
/// and range: "sum-10-2d".
Check to_check(const DumpSet& evidence, const Match& match, const Rule& rule);

}  // namespace rtcmend
