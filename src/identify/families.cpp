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

/// The members of a family with what they weigh, in its order.
struct Weighed {
  const std::vector<const Piece*>& members;
  std::vector<TraitWeight> weights;

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
const Piece* stand_in(const std::vector<const Piece*>& leaders, const PiecesAlike& alike) {
  for (const Piece* plain : leaders)
    if (std::ranges::all_of(
            leaders, [&](const Piece* other) { return other == plain || alike(*plain, *other); }))
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

FamilyAnswer answer(std::string_view name, const Weighed& family, const PiecesAlike& alike,
                    OpenTies open) {
  FamilyAnswer answer;
  answer.family = name;
  answer.tied = leading(family);
  if (!answer.tied.empty()) {
    answer.taken = stand_in(answer.tied, alike);
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

bool is_taken(const std::vector<FamilyAnswer>& answers, const std::string& trait) {
  return std::ranges::any_of(answers, [&](const FamilyAnswer& answer) {
    return answer.taken != nullptr && answer.taken->trait->id == trait;
  });
}

/// A check that one slip would explain is too little by itself, for each trait gets a chance to be
/// missed so nearly. Beside a trait that it is usually met with it is enough.
void take_damaged(FamilyAnswer& answer, const PieceFamily& family,
                  const std::vector<FamilyAnswer>& answers, const WeightOf& weight_of,
                  const PiecesAlike& alike) {
  if (answer.taken != nullptr || family.with_checks == 0) return;
  std::vector<const Piece*> near;
  for (const Piece* piece : family.members)
    if (std::ranges::any_of(piece->trait->met_with,
                            [&](const MetWith& tie) { return is_taken(answers, tie.trait); }) &&
        weight_of(*piece, family.with_checks, Slips::looked_for).one_slip)
      near.push_back(piece);
  answer.taken = stand_in(near, alike);
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

}  // namespace

TraitWeight weigh_trait(std::span<const CheckResult> results, std::size_t among, const Image& image,
                        Slips slips) {
  TraitWeight weight;
  for (const CheckResult& result : results) {
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
      weight.one_slip = !result.blank && one_slip_explains(result, image);
    }
  }
  return weight;
}

std::vector<FamilyAnswer> answer_families(const Piece& whole, const Pieces& pieces,
                                          const WeightOf& weight_of, const PiecesAlike& alike,
                                          OpenTies open) {
  std::vector<FamilyAnswer> answers;
  if (whole.of == nullptr) return answers;
  answers.reserve(pieces.families().size());
  const Slips slips = open == OpenTies::told ? Slips::looked_for : Slips::passed_over;
  std::vector<TraitWeight> weights;
  std::vector<const PieceFamily*> asked;
  asked.reserve(pieces.families().size());
  for (const PieceFamily& family : pieces.families()) {
    if (family.of != whole.of) continue;
    asked.push_back(&family);
    if (family.is_silent) {
      answers.emplace_back().family = family.name;
      if (open == OpenTies::told) answers.back().tied = family.members;
      continue;
    }
    weights.clear();
    for (const Piece* member : family.members)
      weights.push_back(weight_of(*member, family.with_checks, slips));
    Weighed weighed{family.members, std::move(weights)};
    answers.push_back(answer(family.name, weighed, alike, open));
    weights = std::move(weighed.weights);
  }
  if (std::ranges::any_of(answers, [](const FamilyAnswer& one) { return one.taken != nullptr; }))
    for (std::size_t i = 0; i < answers.size(); ++i)
      take_damaged(answers[i], *asked[i], answers, weight_of, alike);
  part_those_that_exclude_each_other(answers);
  return answers;
}

}  // namespace rtcmend
