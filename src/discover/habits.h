#pragma once

#include <string>
#include <vector>

#include "discover/constants.h"

namespace rtcmend {

/// One thing about a model that firmware of the trade does, or does not do.
struct Habit {
  double bits;       ///< how much it speaks for the model, as evidence would; negative: against it
  std::string text;  ///< "stored right behind the range"
};

/// What speaks for and against a match with this rule, apart from the dumps. The weights are common
/// practice, no source.
std::vector<Habit> habits_of(const DumpSet& evidence, const Question& question, const Match& match,
                             const Rule& rule);

/// Their sum.
double total(const std::vector<Habit>& habits);

/// Whether one byte of a stored pair never changed, in dumps where most bytes never do: then only
/// the other byte is proven, and "8 bits" would explain it as well.
bool is_half_proven(const DumpSet& evidence, const Match& match);

/// Whether the dumps show how the sum goes on past its highest value: only a carry that was dropped
/// tells an 8-bit sum from a wider one, or from one that brings the carry round. True for what
/// cannot be confused so: sums of 16 bits of single bytes, xors, CRCs.
bool has_carried(const DumpSet& evidence, const Match& match);

/// The covered bytes that never changed.
Addresses still_bytes(const DumpSet& evidence, const Match& match);

/// Whether the stored bytes only repeat one or two covered bytes, or move in step with all that
/// moves under the range: a second copy of a setting and two counters satisfy a sum as well, but
/// nobody would call that a check.
bool is_copy(const DumpSet& evidence, const Match& match);

}  // namespace rtcmend
