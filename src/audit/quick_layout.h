#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "audit/finding_set.h"
#include "audit/quick_clock.h"
#include "audit/quick_date.h"
#include "audit/quick_fields.h"
#include "audit/recall.h"
#include "base/image.h"
#include "check/check.h"
#include "layout/layout.h"

namespace rtcmend {

/// The findings of examine() under one layout, remembered piece by piece: every field, relation,
/// check and the date is asked about once for the bytes that it rests on. For images with every
/// byte known.
class QuickLayout {
 public:
  /// All must outlive it. Layouts share `fields`, and those that keep the century alike `date`.
  QuickLayout(const Layout& layout, QuickFields& fields, QuickDate& date);

  /// clock: what QuickClock says of the image; checks: results for each check of the layout.
  FindingSet operator()(const Image& image, const QuickClock::Answer& clock,
                        std::span<const CheckResult> checks);

 private:
  /// A field that may have something to say, and its number in fields_.
  struct Own {
    std::size_t number;
    const Field* field;
  };
  /// What one family of findings comes to; each has its place here, so that none is forgotten.
  FindingSet of_family(Family family, const Image& image, const QuickClock::Answer& clock,
                       std::span<const CheckResult> checks);
  FindingSet of_machine(const Image& image);
  FindingSet ask_checks(const Image& image);
  FindingSet of_checks(const Image& image, std::span<const CheckResult> checks);

  const Layout& layout_;
  QuickFields& fields_;
  QuickDate& date_;
  std::vector<Own> own_fields_;
  bool checks_by_results_ = true;  ///< the results alone say what the findings are
  Recall<FindingSet> checks_;
  /// One of the things that are said of the machine, and the bytes that it rests on.
  struct OfMachine {
    Addresses bytes;
    DecidingBits bits;
    Recall<FindingSet> recall;
  };
  std::vector<OfMachine> of_machine_;
  bool machine_by_bytes_ = true;  ///< false when they are too many
};

}  // namespace rtcmend
