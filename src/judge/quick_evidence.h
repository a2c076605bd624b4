#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/image.h"
#include "check/check.h"
#include "judge/recall.h"
#include "layout/layout.h"

namespace rtcmend {

/// evidence_of_fields() for many layouts at once. Layouts share most of their fields, so each
/// different field is weighed once for an image, and what was weighed before is remembered. For
/// images with every byte known.
class QuickEvidence {
 public:
  /// The layouts must outlive it.
  explicit QuickEvidence(const std::vector<const Layout*>& layouts);

  /// Results for each check of the layout with this index.
  using ChecksOf = std::function<std::span<const CheckResult>(std::size_t layout)>;

  /// Weighs every field in this image.
  void look_at(const Image& image, const ChecksOf& checks_of);
  /// The bits that the fields of the layout with this index come to in that image.
  double bits(std::size_t layout) const;

 private:
  /// A field with the layout that it is read in.
  struct Weighed {
    const Field* field;
    const Layout* layout;
    std::size_t layout_index;
    std::optional<RestingPlaces> places;  ///< nothing when it rests on too much to be remembered
    bool asks_checks;                     ///< rests on whether the layout's checks hold, too
    Recall<double> recall;
    double bits = 0;
  };

  std::size_t index_of(const Field& field, const Layout& layout, std::size_t layout_index);
  static std::uint64_t key_of(const Weighed& one, const Image& image, const ChecksOf& checks_of);

  std::vector<Weighed> fields_;
  std::vector<std::vector<std::size_t>> of_layout_;  ///< indexes of its fields, in its order
  std::multimap<std::string, std::size_t> by_id_;
};

}  // namespace rtcmend
