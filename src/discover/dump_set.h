#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "base/image.h"
#include "discover/question.h"

namespace rtcmend {

/// A formula at a place: all that a search can find out. `range` may pass over holes.
struct Match {
  Formula formula;
  Range range;
  Address at = 0;  ///< the stored byte, or the lower one of the pair
  Order order = Order::high_first;

  friend bool operator==(const Match&, const Match&) = default;
};

/// Good dumps of one machine, prepared for a search: what varies, and what a range may cover.
struct DumpSet {
  using Bytes = std::vector<std::uint8_t>;

  std::vector<Bytes> dumps;  ///< all different, all of one size; the first is the reference
  std::size_t repeats = 0;   ///< dumps left out because they equal an earlier one
  std::vector<bool> known;   ///< by address: known in every dump
  std::vector<bool> hole;    ///< by address
  std::vector<bool> varies;  ///< by address: known, and not the same in all dumps
  /// By address: it moves by itself. A check may cover it, but what moves with it proves nothing.
  std::vector<bool> restless;
  /// By pair: how many bits it is worth that a stored byte did not change there.
  std::vector<double> no_change_bits;
  /// Most bytes never change, so that one more which does not is no wonder.
  bool mostly_still = false;
  /// Coverable bytes: a range lies within one run, whose bytes ascend and may skip holes only.
  std::vector<Addresses> runs;

  std::size_t size() const { return known.size(); }
  std::size_t pairs() const { return dumps.size() - 1; }
  /// The xor of dump `pair` + 1 with the reference.
  std::uint8_t difference(std::size_t pair, Address at) const {
    return dumps[pair + 1][at] ^ dumps[0][at];
  }
  bool covers(const Range& range, Address at) const { return range.contains(at) && !hole[at]; }
};

/// Prepares dumps. Refuses (Error) fewer than two different ones, different sizes, and a question
/// about bytes that are unknown or outside.
DumpSet gather_evidence(std::span<const Image> dumps, const Question& question);
/// The same for byte strings of any one size up to 128, all known.
DumpSet gather_evidence(std::span<const DumpSet::Bytes> dumps, const Question& question);

/// The stored value of a dump at a place.
std::uint16_t stored_in(const DumpSet::Bytes& dump, Address at, Order order, unsigned width);
/// The covered bytes of a dump, in order.
DumpSet::Bytes covered_in(const DumpSet& evidence, const DumpSet::Bytes& dump, const Range& range);

/// What the dumps prove about a match that agrees with all of them, in bits: per pair of dumps
/// whose covered bytes say something new, those that move by themselves aside, 8 for a stored byte
/// that changed, and for one that did not as much as such bytes are rare in that pair. A byte that
/// never changes proves nothing where most bytes never do.
double evidence_bits(const DumpSet& evidence, const Match& match);
/// How many pairs of dumps say something new, looking at all bytes that do not move by themselves.
std::size_t independent_pairs(const DumpSet& evidence);

}  // namespace rtcmend
