#pragma once

#include <vector>

#include "repair/plausibility.h"
#include "repair/provenance.h"

namespace rtcmend {

/// How well an image fits what is known beside its checks: the fields and their relations
/// (plausibility.h), the text column, an earlier dump of the machine.
class Fitness {
 public:
  /// All must outlive it; the index is the layout's.
  Fitness(const Image& image, const Layout& layout, const FieldIndex& index,
          const Provenance& provenance);

  /// By how many bits the image fits better with the patches than as it stands.
  double gain(const std::vector<Patch>& patches) const;
  /// How many bits speak against the image as it stands: what a cause that we cannot name would
  /// explain as well.
  double strain() const;

 private:
  const Image& image_;
  const Provenance& provenance_;
  Plausibility plausibility_;
};

}  // namespace rtcmend
