#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "audit/field_pool.h"
#include "audit/finding_set.h"
#include "audit/plain_copy.h"
#include "audit/recall.h"
#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// The findings about fields and relations of several layouts, remembered for the bytes that each
/// rests on. For images with every byte known.
class QuickFields {
 public:
  /// Makes a field ready, and gives the number to ask by; nothing when there is never a finding
  /// about it. The layout must outlive this.
  std::optional<std::size_t> prepare(const Field& field, const Layout& layout);
  /// The findings about the field with this number, as far as no check vouches for it.
  FindingSet operator()(std::size_t number, const Image& image);

 private:
  struct Prepared {
    std::optional<DecidingBits> bits;  ///< nothing when it rests on too much to be remembered
    std::optional<PlainCopy> copy;     ///< then whether it is a true one says all
    Recall<FindingSet> recall;
  };

  static Prepared prepared(const FieldPool::Entry& entry);
  FindingSet ask(const FieldPool::Entry& entry, const Image& image);
  static FindingSet ask_relation(const FieldPool::Entry& entry, const Image& image);

  FieldPool pool_;
  std::vector<Prepared> prepared_;  ///< by number
};

}  // namespace rtcmend
