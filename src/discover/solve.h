#pragma once

#include <span>
#include <string>
#include <vector>

#include "discover/habits.h"
#include "discover/space.h"

namespace rtcmend {

/// A check that agrees with all dumps, with everything that they cannot tell apart from it.
struct Model {
  Check check;                 ///< the likeliest of the family
  std::vector<Rule> wordings;  ///< its rule, and other rules that are the same over this range
  Match match;
  double chance = 0;          ///< models of this space that random data would satisfy by luck
  std::vector<Habit> habits;  ///< what speaks for and against it, apart from the dumps
  bool copy = false;          ///< the stored bytes only repeat a setting
  bool half_proven = false;   ///< one of two stored bytes never changed: nothing proves 16 bits
  /// What else explains the same stored bytes in these dumps and asks for others in further ones:
  /// another rule that is no luck either, or a sum of 16 bits whose other half never changed.
  std::vector<Check> rivals;
  /// Sums of 16 bits of which it would be one half, and whose other half stays as long as nothing
  /// changes but what varied in the dumps.
  std::vector<Check> wider;
  bool carried = true;        ///< of 8-bit sums and of pairs: one passed its highest value
  Addresses still;            ///< covered bytes that never changed: nothing proves that they count
  std::vector<Match> family;  ///< every match the dumps cannot split from it, itself included
  std::vector<Check> twins;   ///< checks at another place that hold in the very same images
  /// The same CRC with other polynomials that share a factor with this one: one more dump splits
  /// them, these did not.
  std::vector<Check> siblings;
  Range firsts, lasts;  ///< where the ranges of the family begin and end

  bool found() const { return chance < decisive_chance && !copy && !half_proven; }
  /// No other rule explains the stored bytes. Its constants and its width are then right for every
  /// image that differs from the dumps in bytes which varied.
  bool is_settled() const { return found() && siblings.empty() && rivals.empty(); }
};

/// What to change in the machine so that the next dump tells most.
struct NextChange {
  Addresses bytes;  ///< a change in one of these splits the models best; empty = nothing to split
  std::string why;
};

/// The one dump in which nothing holds that holds in all others, and that was left out.
struct OddDump {
  std::size_t dump = 0;  ///< by its place among those given
  /// What only it shows. Where there is anything, the dump may be right and the range wrong.
  Addresses alone;
};

struct Solution {
  std::size_t dumps = 0;    ///< different ones
  std::size_t repeats = 0;  ///< dumps that equalled another and said nothing
  std::vector<Space> spaces;
  std::vector<Model> models;  ///< likeliest first
  NextChange next;
  std::optional<OddDump> odd;
  Addresses restless;    ///< bytes that vary by themselves and were left out as evidence
  bool complete = true;  ///< false when the search was stopped
  bool crowded = false;  ///< so many models fit that the search kept the likely ones only

  /// The rule: there is a model that is no luck, and nothing rivals it for its stored bytes.
  bool decided() const;
  /// The place as well: it is not the same check seen from another byte.
  bool place_decided() const;
  /// The range as well: its ends are one pair, and every byte between them was seen to count.
  bool range_decided() const;
};

/// How far a list is worth reading; see Space::listed.
constexpr double list_up_to_by_default = 256;

/// Searches everything that the question leaves open. Refuses (Error) what gather_evidence()
/// refuses.
Solution solve(const DumpSet& evidence, const Question& question, const Watch& watch = {},
               double list_up_to = list_up_to_by_default);
/// The same; when no check holds in all dumps, one that holds in all but one is looked for.
Solution solve(std::span<const Image> dumps, const Question& question, const Watch& watch = {},
               double list_up_to = list_up_to_by_default);

}  // namespace rtcmend
