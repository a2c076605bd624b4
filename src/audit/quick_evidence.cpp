#include "audit/quick_evidence.h"

#include <algorithm>
#include <utility>

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
    OfPiece of = of_piece(piece);
    const auto same = std::ranges::find_if(
        of_piece_, [&](const OfPiece& other) { return other.fields == of.fields; });
    of.same_as = static_cast<std::size_t>(same - of_piece_.begin());
    of_piece_.push_back(std::move(of));
  }
}

QuickEvidence::OfPiece QuickEvidence::of_piece(const Piece& piece) {
  OfPiece of;
  bool all_conditional = true;
  for (const Field& field : piece.fields()) {
    if (!can_be_evidence(field)) continue;
    const std::size_t number = pool_.number(field, *piece.layout);
    if (number == weighed_.size()) weighed_.push_back(weighed(pool_[number]));
    of.fields.push_back({number, use_of(field), checks_proving(field, *piece.layout)});
    of.asks_checks = of.asks_checks || !of.fields.back().proving.empty();
    const auto& use = of.fields.back().use;
    all_conditional = all_conditional && use;
    if (use && std::ranges::count(of.uses, *use) == 0) of.uses.push_back(*use);
  }
  if (!all_conditional) of.uses.clear();
  return of;
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

std::optional<std::size_t> QuickEvidence::use_of(const Field& field) {
  if (field.when.empty()) return std::nullopt;
  const auto known =
      std::ranges::find_if(uses_, [&](const Use& use) { return use.when == field.when; });
  if (known != uses_.end()) return static_cast<std::size_t>(known - uses_.begin());
  uses_.push_back({field.when});
  return uses_.size() - 1;
}

bool QuickEvidence::holds(std::size_t number, const Image& image) {
  Use& use = uses_[number];
  if (use.asked_in != image_number_) {
    use.asked_in = image_number_;
    use.holds = std::ranges::all_of(
        use.when, [&](const UsedWhile& one) { return one.holds(image).value_or(true); });
  }
  return use.holds;
}

double QuickEvidence::bits_of_plain(std::size_t number, const Image& image) {
  Weighed& one = weighed_[number];
  if (one.weighed_in == image_number_) return one.bits;
  one.weighed_in = image_number_;
  const auto weigh = [&] {
    return bits_of_field(*pool_[number].field, *pool_[number].layout, image);
  };
  one.bits = one.resting ? one.recall(one.resting->key(image), weigh) : weigh();
  return one.bits;
}

double QuickEvidence::bits_of_copy(const Own& own, const Piece& piece,
                                   const EvidenceAtHand& evidence) {
  Weighed& one = weighed_[own.number];
  const Image& image = evidence.image();
  const auto weigh = [&] { return bits_of_field(*pool_[own.number].field, *piece.layout, image); };
  if (!one.copy && !one.resting) return weigh();
  const bool proven = std::ranges::any_of(
      own.proving, [&](std::size_t check) { return evidence.check(piece, check).ok(); });
  const std::uint64_t key = one.copy ? std::uint64_t{one.copy->is_true(image)} << 1 |
                                           std::uint64_t{one.copy->is_blank(image)}
                                     : one.resting->key(image);
  return one.recall(key << 1 | std::uint64_t{proven}, weigh);
}

double QuickEvidence::sum(const OfPiece& of, const Piece& piece, const EvidenceAtHand& evidence) {
  double all = 0;
  for (const Own& own : of.fields) {
    if (own.use && !holds(*own.use, evidence.image())) continue;
    all += weighed_[own.number].asks_checks ? bits_of_copy(own, piece, evidence)
                                            : bits_of_plain(own.number, evidence.image());
  }
  return all;
}

double QuickEvidence::bits(std::size_t number, const EvidenceAtHand& evidence) {
  const Piece& piece = pieces_[number];
  OfPiece& of = of_piece_[number];
  if (of.fields.empty()) return 0;
  // Most fields with a condition are out of use, and then say nothing.
  if (!of.uses.empty() &&
      std::ranges::none_of(of.uses, [&](std::size_t use) { return holds(use, evidence.image()); }))
    return 0;
  OfPiece& first = of.asks_checks ? of : of_piece_[of.same_as];
  if (first.weighed_in != image_number_) {
    first.weighed_in = image_number_;
    first.bits = sum(first, piece, evidence);
  }
  return first.bits;
}

}  // namespace rtcmend
