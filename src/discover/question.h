#pragma once

#include <atomic>
#include <functional>
#include <optional>
#include <vector>

#include "check/check.h"
#include "discover/formula.h"

namespace rtcmend {

/// What is already known about a check, to narrow the search. Everything open by default.
struct Question {
  bool sums = true;      ///< plain, negated and complemented, of bytes and of byte pairs
  bool balances = true;  ///< one byte that brings the 8-bit sum to a target
  bool xors = true;
  bool crcs = true;
  std::optional<unsigned> width;  ///< 8 or 16
  std::optional<Range> over;      ///< the covered range
  std::optional<Address> at;      ///< the stored byte, or the lower one of the pair
  std::vector<Check> familiar;    ///< checks of known layouts: others may do as they do
  Addresses holes;                ///< bytes that a range passes over without covering them
  Addresses restless;             ///< bytes that move with nothing changed: they prove nothing
};

/// How a long search talks to its caller, who may run in another thread or a signal handler.
struct Watch {
  std::function<void(double)> progress;     ///< called now and then with 0.0 to 1.0; may be empty
  const std::atomic<bool>* stop = nullptr;  ///< true ends the search with what was found so far

  bool stopped() const { return stop != nullptr && stop->load(std::memory_order_relaxed); }
};

/// Whether 8-bit inverse sums are searched: "balance" and "negated 8-bit sum" are one formula.
inline bool wants_inverse_bytes(const Question& question) {
  return question.sums || question.balances;
}
inline bool wants_width(const Question& question, unsigned width) {
  return !question.width || *question.width == width;
}

}  // namespace rtcmend
