#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "forms/number.h"
#include "forms/reading.h"

namespace rtcmend {

/// One way to write bytes as numbers.
struct Notation {
  int radix = 16;
  std::size_t width = 1;  ///< bytes a number
  ByteOrder order = ByteOrder::high_first;
  /// Every number has all digits that its width can need, so that a lost one shows.
  bool padded = true;
  /// Hex groups of any even number of digits, byte after byte as they are written.
  bool groups = false;
  /// Numbers that a mark makes hex among decimal ones have all their digits, too.
  bool padded_marks = false;

  friend bool operator==(const Notation&, const Notation&) = default;
};

/// "hex bytes", "octal words of 2 bytes, low byte first".
std::string in_words(const Notation& notation);

/// The bytes of a number; nothing when the notation would not write it like this.
std::optional<std::vector<DumpByte>> bytes_of(const Number& number, const Notation& notation);

/// A notation that numbers may be written in, with what speaks for it and against it.
struct NotationCandidate {
  Notation notation;
  double bits = 0;  ///< evidence from the digits alone
};

/// The notations that nearly all of these numbers obey. `addressed`: the rows have addresses, so
/// that their steps will tell the width.
std::vector<NotationCandidate> candidate_notations(const std::vector<Number>& numbers,
                                                   const ReadingOptions& options, bool addressed);

}  // namespace rtcmend
