#include "identify/families.h"

#include <algorithm>
#include <cmath>

#include "check/check.h"
#include "identify/evidence.h"

namespace rtcmend {

namespace {

// By judgement: noise does as well as `enough` once in 128 times, and that only where its class was
// found first; two traits within `clear_lead` are not told apart; an area that is kept but empty is
// met less often than one that is not kept at all.
constexpr double enough = 7, clear_lead = 6, empty_area = -2;

struct Member {
  const Piece* piece;
  TraitWeight weight;
};

bool belongs_to(const Piece& piece, const Piece& whole, const std::string& family) {
  return piece.of == whole.of && piece.trait != nullptr && !piece.is_whole &&
         piece.trait->family == family;
}

std::vector<Member> members_of(const std::string& family, const Piece& whole,
                               std::span<const Piece> pieces, const WeightOf& weight_of) {
  std::vector<Member> members;
  std::size_t among = 0;
  for (const Piece& piece : pieces) {
    if (!belongs_to(piece, whole, family)) continue;
    members.push_back({&piece, {}});
    if (!piece.checks().empty()) ++among;
  }
  for (Member& member : members) member.weight = weight_of(*member.piece, among);
  return members;
}

/// Those with enough for them, within reach of the best, in the order of the family.
std::vector<const Piece*> leading(const std::vector<Member>& members) {
  double best = enough;
  for (const Member& member : members)
    if (!member.weight.ruled_out) best = std::max(best, member.weight.bits);
  std::vector<const Piece*> leaders;
  for (const auto& [piece, weight] : members)
    if (!weight.ruled_out && weight.bits >= enough && best - weight.bits < clear_lead)
      leaders.push_back(piece);
  return leaders;
}

/// The one of them that may be taken whichever is the machine's own; null when there is none.
const Piece* stand_in(const std::vector<const Piece*>& leaders, const PiecesAlike& alike) {
  for (const Piece* plain : leaders)
    if (std::ranges::all_of(leaders, [&](const Piece* other) {
          return other == plain || alike(*plain, *other);
        }))
      return plain;
  return nullptr;
}

/// The presumed one, when nothing speaks against it and all others are out.
const Piece* presumed_one(const std::vector<Member>& members) {
  const Piece* presumed = nullptr;
  for (const auto& [piece, weight] : members) {
    if (piece->trait->presumed) {
      if (weight.ruled_out || weight.bits < empty_area) return nullptr;
      presumed = piece;
    } else if (!weight.ruled_out && weight.bits >= empty_area) {
      return nullptr;
    }
  }
  return presumed;
}

double bits_of(const std::vector<Member>& members, const Piece* wanted) {
  for (const auto& [piece, weight] : members)
    if (piece == wanted) return weight.bits;
  return 0;
}

FamilyAnswer answer(const std::string& family, const std::vector<Member>& members,
                    const PiecesAlike& alike) {
  FamilyAnswer answer;
  answer.family = family;
  answer.tied = leading(members);
  if (!answer.tied.empty()) {
    answer.taken = stand_in(answer.tied, alike);
    if (answer.taken != nullptr) {
      std::erase(answer.tied, answer.taken);
      answer.tied.insert(answer.tied.begin(), answer.taken);
    }
  } else if (const Piece* presumed = presumed_one(members)) {
    answer.taken = presumed;
    answer.is_presumed = true;
    answer.tied = {presumed};
  } else {
    for (const auto& [piece, weight] : members)
      if (!weight.ruled_out && weight.bits >= empty_area) answer.tied.push_back(piece);
  }
  for (const auto& [piece, weight] : members)
    if (weight.one_slip) answer.one_slip.push_back(piece);
  answer.bits = bits_of(members, answer.taken);
  return answer;
}

bool is_taken(const std::vector<FamilyAnswer>& answers, const std::string& trait) {
  return std::ranges::any_of(answers, [&](const FamilyAnswer& answer) {
    return answer.taken != nullptr && answer.taken->trait->id == trait;
  });
}

/// A check that one slip would explain is too little by itself, for each trait gets a chance to be
/// missed so nearly. Beside a trait that it is usually met with it is enough.
void take_damaged(FamilyAnswer& answer, const std::vector<FamilyAnswer>& answers,
                  const PiecesAlike& alike) {
  if (answer.taken != nullptr) return;
  std::vector<const Piece*> near;
  for (const Piece* piece : answer.one_slip)
    if (std::ranges::any_of(piece->trait->met_with, [&](const MetWith& tie) {
          return is_taken(answers, tie.trait);
        }))
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

TraitWeight weigh_trait(std::span<const CheckResult> results, double field_bits, std::size_t among,
                        const Image& image) {
  TraitWeight weight;
  weight.bits = field_bits;
  for (const CheckResult& result : results) {
    if (!result.counts || !result.unknown.empty()) continue;
    if (result.ok()) {
      weight.holds = true;
      weight.bits += width(*result.check) - std::log2(static_cast<double>(std::max<std::size_t>(among, 1)));
    } else if (result.blank && result.stored == result.computed) {
      weight.bits += empty_area;
    } else {
      weight.ruled_out = true;
      weight.one_slip = !result.blank && one_slip_explains(result, image);
    }
  }
  return weight;
}

std::vector<FamilyAnswer> answer_families(const Piece& whole, std::span<const Piece> pieces,
                                          const WeightOf& weight_of, const PiecesAlike& alike) {
  std::vector<FamilyAnswer> answers;
  if (whole.of == nullptr) return answers;
  for (const std::string& family : whole.of->families) {
    const std::vector<Member> members = members_of(family, whole, pieces, weight_of);
    if (!members.empty()) answers.push_back(answer(family, members, alike));
  }
  for (FamilyAnswer& answer : answers) take_damaged(answer, answers, alike);
  part_those_that_exclude_each_other(answers);
  return answers;
}

}  // namespace rtcmend
