#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "audit/field_pool.h"
#include "audit/plain_copy.h"
#include "audit/recall.h"
#include "base/image.h"
#include "check/check.h"
#include "layout/layout.h"

namespace rtcmend {

/// evidence_of_fields() for many layouts at once. Layouts share most of their fields, so each
/// different field is weighed once for an image, and what was weighed before is remembered. For
/// images with every byte known.
class QuickEvidence {
 public:
  /// The layouts must outlive it.
  explicit QuickEvidence(std::vector<const Layout*> layouts);

  /// Weighs in this image every field that no check has a say in.
  void look_at(const Image& image);
  /// The bits that the fields of the layout with this index come to in the image looked at last.
  /// checks: results for each check of the layout.
  double bits(std::size_t layout, const Image& image, std::span<const CheckResult> checks);

 private:
  struct Weighed {
    std::optional<DecidingBits> resting;  ///< nothing when it rests on too much to be remembered
    std::optional<PlainCopy> copy;  ///< then that it is true, or blank, says all about its bits
    bool asks_checks;               ///< rests on whether one of `proving` holds, too
    Recall<double> recall;
    double bits = 0;
  };
  /// A field of one layout.
  struct Own {
    std::size_t number;                ///< in the pool
    std::vector<std::size_t> proving;  ///< checks_proving()
  };

  static Weighed weighed(const FieldPool::Entry& entry);
  double bits_of_copy(const Own& own, const Layout& layout, const Image& image,
                      std::span<const CheckResult> checks);

  std::vector<const Layout*> layouts_;
  FieldPool pool_;
  std::vector<Weighed> weighed_;             ///< by number in the pool
  std::vector<std::vector<Own>> of_layout_;  ///< in the order of the layout
};

}  // namespace rtcmend
