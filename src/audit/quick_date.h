#pragma once

#include <optional>

#include "audit/finding_set.h"
#include "audit/recall.h"
#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// The findings about date, weekday and century, remembered. For images with every byte known.
class QuickDate {
 public:
  /// For layouts that keep the century as this one does.
  explicit QuickDate(const Layout& layout);

  bool is_for(const Layout& layout) const;
  FindingSet operator()(const Image& image, bool time_is_legal);

 private:
  /// What every date of a year comes to that exists and has the right weekday.
  struct Year {
    FindingSet findings;
    std::optional<int> year;  ///< nothing when it cannot be read
  };
  FindingSet findings_of(const Image& dated);
  FindingSet ask_date(const Image& image, bool time_is_legal);
  Year ask_year(const Image& image, bool time_is_legal);

  Layout layout_;  ///< the field of the century alone, which is all that a date needs
  DecidingBits date_bits_, year_bits_;
  std::optional<DecidingBits> century_bits_;
  Recall<FindingSet> dates_{64, 13};
  Recall<Year> years_;
};

}  // namespace rtcmend
