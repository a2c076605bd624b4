#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/image.h"
#include "layout/layout.h"
#include "repair/provenance.h"
#include "repair/repair.h"

namespace rtcmend {

/// One repair that would explain failed checks.
struct Suspect {
  std::string id;    ///< "bit-12-3", "byte-12-F0", "swap-12-13", "slip-12-F0", "seal-sum-10-2d"
  std::string text;  ///< what went wrong, and what the repair makes of the fields
  std::vector<Patch> changes;
  std::vector<std::string> mends;  ///< ids of the checks that hold afterwards
  /// 0 to 1: how likely it is, by how often such damage is met (causes.h) and how well the repaired
  /// image fits all that is known (fitness.h). Those for the same checks make less than one whole:
  /// what is left is "none of these".
  double odds = 0;
  /// Whether further dumps of the chip, which do not agree, leave hardly anything else open: once
  /// it is made, that they waver no longer counts against the reading.
  bool settles = false;
};

/// The smallest repairs that would explain the failed checks, likeliest first: one bit, one byte,
/// two swapped bytes, a stale or lost check; in a listing, slips of the hand; where further dumps
/// waver, what they elect, and nothing else. When no small repair explains all checks, those that
/// explain one. Sealing what somebody typed comes behind smaller causes that together are likelier.
/// Empty when every check holds, is blank, or cannot be judged.
std::vector<Suspect> suspects(const Image& image, const Layout& layout,
                              const Provenance& provenance = {});

/// The share that "none of these" has among the suspects for the same checks.
struct OpenShare {
  std::vector<std::string> mends;
  double odds = 0;
};
std::vector<OpenShare> none_of_these(const std::vector<Suspect>& all);

/// The suspect with this id. Refuses (Error) one that is not among them, with the nearest ids.
const Suspect& need_suspect(const std::vector<Suspect>& all, std::string_view id);

/// The image with the repair made. Bytes other than the suspect's are left alone.
Image repaired(const Image& image, const Suspect& suspect);

}  // namespace rtcmend
