#include "identify/families.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "check/check.h"
#include "identify/evidence.h"

namespace rtcmend {

namespace {

// By judgement: noise does as well as `enough` once in 128 times, and that only where its class was
// found first; two traits within `clear_lead` are not told apart; an area that is kept but empty is
// met less often than one that is not kept at all.
constexpr double enough = 7, clear_lead = 6, empty_area = -2;

/// among: how many traits of its family have a check, each of which may hold by chance.
TraitWeight weigh(const Piece& piece, std::size_t among, EvidenceAtHand& evidence, Slips slips) {
  TraitWeight weight;
  for (const CheckResult& result : evidence.checks(piece)) {
    if (!result.counts || !result.unknown.empty()) continue;
    if (result.ok()) {
      weight.holds = true;
      weight.bits +=
          width(*result.check) - std::log2(static_cast<double>(std::max<std::size_t>(among, 1)));
    } else if (result.blank && result.stored == result.computed) {
      weight.bits += empty_area;
    } else {
      weight.ruled_out = true;
      if (slips == Slips::passed_over) break;
      weight.one_slip = !result.blank && one_slip_explains(result, evidence.image());
    }
  }
  if (!weight.ruled_out && !piece.fields().empty()) weight.bits += evidence.field_bits(piece);
  return weight;
}

/// The members of a family with what they weigh, in its order.
struct Weighed {
  const std::vector<const Piece*>& members;
  const std::vector<TraitWeight>& weights;

  /// Those that are not ruled out and have at least so many bits.
  template <typename Wanted>
  std::vector<const Piece*> those(const Wanted& wanted) const {
    std::vector<const Piece*> some;
    for (std::size_t i = 0; i < members.size(); ++i)
      if (wanted(weights[i])) some.push_back(members[i]);
    return some;
  }
  std::vector<const Piece*> with_at_least(double bits) const {
    return those(
        [=](const TraitWeight& weight) { return !weight.ruled_out && weight.bits >= bits; });
  }
  bool is_ruled_out() const { return std::ranges::all_of(weights, &TraitWeight::ruled_out); }
  double bits_of(const Piece* wanted) const {
    for (std::size_t i = 0; i < members.size(); ++i)
      if (members[i] == wanted) return weights[i].bits;
    return 0;
  }
};

/// Those with enough for them, within reach of the best.
std::vector<const Piece*> leading(const Weighed& family) {
  double best = 0;
  for (const TraitWeight& weight : family.weights)
    if (!weight.ruled_out) best = std::max(best, weight.bits);
  if (best < enough) return {};
  return family.those([=](const TraitWeight& weight) {
    return !weight.ruled_out && weight.bits >= enough && best - weight.bits < clear_lead;
  });
}

/// The one of them that may be taken whichever is the machine's own; null when there is none.
const Piece* stand_in(const std::vector<const Piece*>& leaders, EvidenceAtHand& evidence) {
  for (const Piece* plain : leaders)
    if (std::ranges::all_of(leaders, [&](const Piece* other) {
          return other == plain || evidence.alike(*plain, *other);
        }))
      return plain;
  return nullptr;
}

/// The presumed one, when nothing speaks against it and all others are out.
const Piece* presumed_one(const Weighed& family) {
  const Piece* presumed = nullptr;
  for (std::size_t i = 0; i < family.members.size(); ++i) {
    const TraitWeight& weight = family.weights[i];
    const bool is_possible = !weight.ruled_out && weight.bits >= empty_area;
    if (family.members[i]->trait->presumed != is_possible) return nullptr;
    if (is_possible) presumed = family.members[i];
  }
  return presumed;
}

FamilyAnswer answer(const PieceFamily& asked, const Weighed& family, EvidenceAtHand& evidence,
                    OpenTies open) {
  FamilyAnswer answer;
  answer.family = &asked;
  answer.tied = leading(family);
  if (!answer.tied.empty()) {
    answer.taken = stand_in(answer.tied, evidence);
    if (answer.taken != nullptr) {
      std::erase(answer.tied, answer.taken);
      answer.tied.insert(answer.tied.begin(), answer.taken);
    }
  } else if (const Piece* presumed = presumed_one(family)) {
    answer.taken = presumed;
    answer.is_presumed = true;
    answer.tied = {presumed};
  } else if (open == OpenTies::told) {
    answer.tied = family.with_at_least(empty_area);
  }
  answer.one_slip = family.those([](const TraitWeight& weight) { return weight.one_slip; });
  answer.bits = family.bits_of(answer.taken);
  return answer;
}

bool is_taken(const std::vector<FamilyAnswer>& answers, const Piece* piece) {
  return std::ranges::find(answers, piece, &FamilyAnswer::taken) != answers.end();
}

/// A check that one slip would explain is too little by itself, for each trait gets a chance to be
/// missed so nearly. Beside a trait that it is usually met with it is enough.
void take_damaged(FamilyAnswer& answer, const std::vector<FamilyAnswer>& answers,
                  EvidenceAtHand& evidence) {
  const PieceFamily& family = *answer.family;
  if (answer.taken != nullptr || family.with_checks == 0 || !family.is_met_with_others) return;
  std::vector<const Piece*> near;
  for (const Piece* piece : family.members)
    if (std::ranges::any_of(piece->company,
                            [&](const Piece* other) { return is_taken(answers, other); }) &&
        weigh(*piece, family.with_checks, evidence, Slips::looked_for).one_slip)
      near.push_back(piece);
  answer.taken = stand_in(near, evidence);
  if (answer.taken != nullptr) answer.tied = near;
}

/// Two that cannot be one firmware's are not both taken: the one with less for it goes.
void part_those_that_exclude_each_other(std::vector<FamilyAnswer>& answers) {
  for (FamilyAnswer& one : answers)
    for (FamilyAnswer& other : answers) {
      if (one.taken == nullptr || other.taken == nullptr || &one == &other) continue;
      if (one.bits > other.bits || (one.bits == other.bits && &one < &other)) continue;
      if (!why_not_together(*one.taken->trait, *other.taken->trait).empty()) one.taken = nullptr;
    }
}

/// Whether nothing can come of a family that nobody wants to hear about.
bool is_out(const PieceFamily& family, const Weighed& weighed) {
  return weighed.is_ruled_out() && !family.is_met_with_others;
}

}  // namespace

std::vector<FamilyAnswer> answer_families(const Piece& whole, const Pieces& pieces,
                                          EvidenceAtHand& evidence, OpenTies open) {
  const auto families = pieces.families_of(whole.of);
  const bool told = open == OpenTies::told;
  std::vector<FamilyAnswer> answers;
  answers.reserve(families.size());
  std::vector<TraitWeight> weights;
  weights.reserve(pieces.all().size());
  for (const PieceFamily& family : families) {
    if (family.is_silent) {
      if (told) answers.push_back({&family, nullptr, false, 0, family.members, {}});
      continue;
    }
    weights.clear();
    for (const Piece* member : family.members)
      weights.push_back(weigh(*member, family.with_checks, evidence,
                              told ? Slips::looked_for : Slips::passed_over));
    const Weighed weighed{family.members, weights};
    if (told || !is_out(family, weighed))
      answers.push_back(answer(family, weighed, evidence, open));
  }
  if (std::ranges::any_of(answers, [](const FamilyAnswer& one) { return one.taken != nullptr; }))
    for (FamilyAnswer& answer : answers) take_damaged(answer, answers, evidence);
  part_those_that_exclude_each_other(answers);
  return answers;
}

}  // namespace rtcmend
