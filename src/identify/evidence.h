#pragma once

#include <span>
#include <string>
#include <vector>

#include "base/image.h"
#include "check/check.h"
#include "layout/layout.h"

namespace rtcmend {

/// What evidence_of_chip() counts at most: a dead clock may stand beside good RAM.
inline constexpr double most_for_a_chip = 8;

/// What speaks for a layout, in bits: 16 = random data would do as well once in 65,536 times.
/// Negative = it speaks against.
struct Evidence {
  double bits = 0;
  std::vector<std::string> why;  ///< in words, a piece each
};

/// What the checks of a layout say together.
struct CheckEvidence {
  double bits = 0;
  std::vector<std::string> why;
  bool damaged = false;  ///< one of them fails, though a small damage would explain it
};

/// Checks that hold speak for a layout by their width. Those that fail speak against it, unless a
/// small damage would explain it, or check bytes in the other order. A check over nothing but equal
/// bytes proves nothing.
CheckEvidence evidence_of_checks(const Layout& layout, const Image& image);

/// The same without the words, from results for each check of one layout.
struct CheckWeight {
  double bits = 0;
  bool damaged = false;
  bool proven = false;  ///< one of 16 bits holds, and none lies in ruins
};
CheckWeight weigh_checks(std::span<const CheckResult> results, const Image& image);

/// No less than weigh_checks() would give, without a search for what could explain a failure.
double most_bits_of_checks(std::span<const CheckResult> results);

/// Whether one flipped bit would explain a check that fails. Of 16-bit checks alone: any flipped
/// bit explains enough of the shorter ones.
bool one_slip_explains(const CheckResult& failed, const Image& image);

/// Legal values where most codes would not be, wide fields at the layout's default, and fields that
/// agree with those they follow. Bits all 0 or all 1 prove nothing.
Evidence evidence_of_fields(const Layout& layout, const Image& image);

/// What one field adds to that, of the layout that holds it.
double bits_of_field(const Field& field, const Layout& layout, const Image& image);

/// The most that a field could add, whatever the image.
double most_bits_of_field(const Field& field);
/// Whether a field can add or take anything at all.
bool can_be_evidence(const Field& field);

/// Whether this is a clock chip's dump at all: the same for every layout, and kept small, for a
/// dead clock may stand beside good RAM. Unknown clock bytes say nothing.
Evidence evidence_of_chip(const Image& image);

}  // namespace rtcmend
