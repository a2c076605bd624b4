#pragma once

#include <vector>

#include "discover/dump_set.h"

namespace rtcmend {

/// What a search brought home.
struct SearchResult {
  std::vector<Match> matches;  ///< every one that agrees with all dumps, none twice
  std::size_t dismissed = 0;   ///< agreed as well, but with less evidence than was asked for
  bool complete = true;        ///< false when it was stopped
};

/// The matches must rest on at least this many bits of evidence; see evidence_bits().
struct Threshold {
  double least_bits = 0;
};

/// Sums, balances and xors of one width over every range, at every place that changed.
SearchResult search_sums(const DumpSet& evidence, const Question& question, unsigned width,
                         const Threshold& threshold);

/// CRCs of one width: every polynomial with a constant term, both reflections free of each other,
/// every range with a byte that changed, every place that changed.
SearchResult search_crcs(const DumpSet& evidence, const Question& question, unsigned width,
                         const Threshold& threshold, const Watch& watch);

}  // namespace rtcmend
