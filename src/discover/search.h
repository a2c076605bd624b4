#pragma once

#include <array>
#include <map>
#include <vector>

#include "discover/dump_set.h"

namespace rtcmend {

/// What a search brought home.
struct SearchResult {
  std::vector<Match> matches;  ///< every one that agrees with all dumps, none twice
  std::size_t dismissed = 0;   ///< agreed as well, but with less evidence than was asked for
  bool complete = true;        ///< false when it was stopped
  bool crowded = false;        ///< too many agreed: only those with decisive evidence were kept
};

/// The matches must rest on at least this many bits of evidence; see evidence_bits().
struct Threshold {
  double least_bits = 0;
  double decisive_bits = 0;  ///< what a crowd of matches is held to instead
};

/// More matches than this are a crowd that nobody reads: each then costs time and memory for
/// nothing. Some twenty times what the longest list of an ordinary session holds.
constexpr std::size_t crowd = 20000;

/// Collects the matches of one search and keeps a crowd of them within bounds.
class Harvest {
 public:
  Harvest(const DumpSet& evidence, const Threshold& threshold)
      : evidence_(evidence), threshold_(threshold) {}

  /// Whether a match that agrees with all dumps rests on enough; one that does not is counted.
  bool wants(const Match& match);
  void take(const Match& match);
  /// Even decisive matches have become a crowd: to search on would only make it larger.
  bool full() const { return result_.matches.size() >= 2 * crowd; }
  void stop() { result_.complete = false; }
  SearchResult bring_home() { return std::move(result_); }

 private:
  double bits_of(const Match& match);
  void thin_out();

  const DumpSet& evidence_;
  const Threshold& threshold_;
  SearchResult result_;
  std::map<std::array<Address, 3>, double> bits_;  // by range and place: all formulas share them
};

/// Sums, balances and xors of one width over every range, at every place that changed.
SearchResult search_sums(const DumpSet& evidence, const Question& question, unsigned width,
                         const Threshold& threshold);

/// CRCs of one width: every polynomial with a constant term, both reflections free of each other,
/// every range with a byte that changed, every place that changed.
SearchResult search_crcs(const DumpSet& evidence, const Question& question, unsigned width,
                         const Threshold& threshold, const Watch& watch);

}  // namespace rtcmend
