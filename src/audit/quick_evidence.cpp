#include "audit/quick_evidence.h"

#include <algorithm>
#include <utility>

#include "audit/quick_fields.h"
#include "identify/evidence.h"
#include "judge/relations.h"

namespace rtcmend {

namespace {

bool has_preset(const Field& field) {
  return !std::holds_alternative<std::monostate>(field.preset);
}

/// A check that holds may prove a copy, and then a copy that differs weighs more.
bool is_copy(const Field& field) {
  return field.follows && field.follows->how == Follows::How::same;
}

}  // namespace

QuickEvidence::QuickEvidence(std::span<const Piece> pieces) : pieces_(pieces) {
  for (const Piece& piece : pieces_) {
    std::vector<Own>& own = of_piece_.emplace_back();
    for (const Field& field : piece.fields()) {
      if (says_nothing(field)) continue;
      const std::size_t number = pool_.number(field, *piece.layout);
      if (number == weighed_.size()) weighed_.push_back(weighed(pool_[number]));
      own.push_back({number, checks_proving(field, *piece.layout)});
    }
  }
}

QuickEvidence::Weighed QuickEvidence::weighed(const FieldPool::Entry& entry) {
  constexpr unsigned room = 13;
  const bool asks_checks = is_copy(*entry.field);
  auto copy = PlainCopy::of(*entry.field, *entry.layout);
  if (has_preset(*entry.field)) copy.reset();  // a value that is just the default weighs more
  auto resting = bits_that_decide(*entry.field, *entry.layout);
  // Whether a check holds takes one bit of the key.
  if (asks_checks && resting && resting->width() == 64) resting.reset();
  const std::size_t bits = resting ? resting->width() + std::size_t{asks_checks} : 64;
  return {resting, copy, asks_checks, Recall<double>(bits, room)};
}

void QuickEvidence::look_at(const Image& image) {
  for (std::size_t number = 0; number < weighed_.size(); ++number) {
    Weighed& one = weighed_[number];
    if (one.asks_checks) continue;
    const auto weigh = [&] {
      return bits_of_field(*pool_[number].field, *pool_[number].layout, image);
    };
    one.bits = one.resting ? one.recall(one.resting->key(image), weigh) : weigh();
  }
}

double QuickEvidence::bits_of_copy(const Own& own, const Layout& layout, const Image& image,
                                   const Holds& holds) {
  Weighed& one = weighed_[own.number];
  const auto weigh = [&] { return bits_of_field(*pool_[own.number].field, layout, image); };
  if (!one.copy && !one.resting) return weigh();
  const bool proven = std::any_of(own.proving.begin(), own.proving.end(), holds);
  const std::uint64_t key = one.copy ? std::uint64_t{one.copy->is_true(image)} << 1 |
                                           std::uint64_t{one.copy->is_blank(image)}
                                     : one.resting->key(image);
  return one.recall(key << 1 | std::uint64_t{proven}, weigh);
}

double QuickEvidence::bits(std::size_t piece, const Image& image, const Holds& holds) {
  double all = 0;
  for (const Own& own : of_piece_[piece])
    all += weighed_[own.number].asks_checks
               ? bits_of_copy(own, *pieces_[piece].layout, image, holds)
               : weighed_[own.number].bits;
  return all;
}

}  // namespace rtcmend
