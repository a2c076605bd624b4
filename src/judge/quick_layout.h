#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "base/image.h"
#include "check/check.h"
#include "judge/finding_set.h"
#include "judge/quick_clock.h"
#include "judge/recall.h"
#include "layout/layout.h"

namespace rtcmend {

/// The findings of examine() under one layout, remembered piece by piece: every field, relation,
/// check and the date is asked about once for the bytes that it rests on. For images with every
/// byte known.
class QuickLayout {
 public:
  /// Both must outlive it.
  QuickLayout(const Layout& layout, FindingNames& names);

  /// clock: what QuickClock says of the image; checks: results for each check of the layout.
  FindingSet operator()(const Image& image, const QuickClock::Answer& clock,
                        std::span<const CheckResult> checks);

 private:
  struct Part {
    const Field* field;
    ImageRecall<FindingSet> recall;
  };
  /// A number over whole bytes that shall be the same as another one: whether the bytes are equal
  /// says all.
  struct Copy {
    const Field* field;
    RestingPlaces own, original;
    Recall<FindingSet> recall{1};
  };

  void prepare(const Field& field);
  FindingSet ask_field(const Field& field, const Image& image);
  FindingSet ask_relation(const Field& field, const Image& image);
  /// What every date of a year comes to that exists and has the right weekday.
  struct Year {
    FindingSet findings;
    std::optional<int> year;  ///< nothing when it cannot be read
  };

  FindingSet findings_of_date(const Image& dated);
  FindingSet ask_date(const Image& image, bool time_is_legal);
  Year ask_year(const Image& image, bool time_is_legal);
  FindingSet ask_checks(const Image& image);
  FindingSet of_date(const Image& image, bool time_is_legal);
  FindingSet of_checks(const Image& image, std::span<const CheckResult> checks);

  const Layout& layout_;
  FindingNames& names_;
  Layout date_layout_;  ///< the field of the century alone, which is all that a date needs
  std::vector<Part> parts_;
  std::vector<Copy> copies_;
  std::vector<const Field*> wide_;  ///< rest on too much to be remembered
  bool checks_by_results_ = true;   ///< the results alone say what the findings are
  RestingPlaces date_places_, year_places_;
  std::optional<RestingPlaces> century_places_;
  Recall<FindingSet> dates_{64, 13}, checks_;
  Recall<Year> years_;
  std::optional<FindingSet> broken_relation_;  ///< the same for every one
};

/// Whether any bytes are legal in a field and tell nothing: nothing need be asked about it.
bool says_nothing(const Field& field);

}  // namespace rtcmend
