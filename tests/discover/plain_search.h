#pragma once

#include <vector>

#include "discover/dump_set.h"

namespace rtcmend::test {

/// Polynomials to try, the odd ones from `first` to `last`.
struct Polynomials {
  unsigned first = 1;
  unsigned last = 0xFFFF;
};

/// The search as anyone would write it: nested loops over polynomials, reflections, ranges, places
/// and orders, a CRC bit by bit over every range anew. It works on differences between dumps, so
/// that start value and final xor are out. Like the fast one it passes over ranges and places that
/// never change.
std::vector<Match> plain_crc_search(const std::vector<DumpSet::Bytes>& dumps,
                                    const Addresses& holes, unsigned width,
                                    const Polynomials& polynomials);

/// Sums, balances and xors by their definitions, with the constant taken from the first dump.
std::vector<Match> plain_sum_search(const std::vector<DumpSet::Bytes>& dumps,
                                    const Addresses& holes, unsigned width);

/// One line a match, sorted: for comparing what two searches found.
std::vector<std::string> in_words(const std::vector<Match>& matches);

}  // namespace rtcmend::test
