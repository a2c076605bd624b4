#include "discover/solve.h"

#include <algorithm>
#include <cmath>

#include "discover/families.h"
#include "discover/next_change.h"
#include "discover/odd_dump.h"
#include "discover/search.h"

namespace rtcmend {

namespace {

// A listed model may rest on a byte less than the whole evidence, for a stored byte that happened
// to stay, and habit may lift one that rests on still less.
constexpr double byte_less = 8, most_lift = 12;

// Models beyond these are left unsaid: comparing all with all would take minutes.
constexpr std::size_t most_models = 300;

struct Found {
  Model model;
  Kin kin;
  double rank;  // lower is likelier
};

Match likeliest_member(const DumpSet& evidence, const Question& question,
                       const std::vector<Match>& members) {
  const auto worth = [&](const Match& match) {
    return total(habits_of(evidence, question, match, constants_of(evidence, match).front()));
  };
  const Match* best = &members.front();
  double most = worth(*best);
  for (const Match& match : members) {
    const double bits = worth(match);
    if (bits <= most) continue;
    most = bits;
    best = &match;
  }
  return *best;
}

void note_edges(Model& model) {
  const auto by_first = [](const Match& match) { return match.range.first; };
  const auto by_last = [](const Match& match) { return match.range.last; };
  const auto [low_first, high_first] = std::ranges::minmax_element(model.family, {}, by_first);
  const auto [low_last, high_last] = std::ranges::minmax_element(model.family, {}, by_last);
  model.firsts = {low_first->range.first, high_first->range.first};
  model.lasts = {low_last->range.last, high_last->range.last};
}

Found describe_family(const DumpSet& evidence, const Question& question, const Space& space,
                      Kin kin) {
  Model model;
  model.family = kin.members;
  model.match = likeliest_member(evidence, question, kin.members);
  model.wordings = constants_of(evidence, model.match);
  model.check = to_check(evidence, model.match, model.wordings.front());
  model.chance = chance_of(space, evidence_bits(evidence, model.match));
  model.habits = habits_of(evidence, question, model.match, model.wordings.front());
  model.copy = is_copy(evidence, model.match);
  model.half_proven = is_half_proven(evidence, model.match);
  model.carried = has_carried(evidence, model.match);
  model.still = still_bytes(evidence, model.match);
  note_edges(model);
  const double rank = std::log2(model.chance) - total(model.habits);
  return {std::move(model), std::move(kin), rank};
}

bool worth_listing(const Found& found, double list_up_to) {
  const double lift = std::clamp(total(found.model.habits), byte_less, most_lift);
  return std::log2(found.model.chance) <= std::log2(list_up_to) + lift;
}

// A wording that the question did not ask for must not stand first.
void prefer_asked_kind(const Question& question, Model& model) {
  const bool only_sums = question.sums && !question.balances;
  if (!only_sums || !std::holds_alternative<BalanceRule>(model.wordings.front())) return;
  std::rotate(model.wordings.begin(), model.wordings.begin() + 1, model.wordings.end());
  model.check.rule = model.wordings.front();
  model.check.id.replace(0, model.check.id.find('-'), kind(model.check.rule));
}

void sort_by_likelihood(std::vector<Found>& found) {
  std::ranges::stable_sort(found, [](const Found& a, const Found& b) {
    if (a.model.found() != b.model.found()) return a.model.found();
    return a.rank < b.rank;
  });
}

// Of two models that say the same from different bytes, the more customary one speaks for both.
void join_twin(Model& kept, Model twin) {
  if (total(twin.habits) > total(kept.habits)) {
    std::swap(kept, twin);
    kept.twins = std::move(twin.twins);
  }
  kept.twins.push_back(std::move(twin.check));
}

std::vector<Model> with_kin_joined(const DumpSet& evidence, std::vector<Model> models) {
  std::vector<Model> kept;
  for (Model& model : models) {
    const auto sibling = std::ranges::find_if(
        kept, [&](const Model& earlier) { return are_siblings(earlier.match, model.match); });
    if (sibling != kept.end()) {
      sibling->siblings.push_back(std::move(model.check));
      continue;
    }
    const auto twin = std::ranges::find_if(kept, [&](const Model& earlier) {
      return model.found() && earlier.found() && are_twins(evidence, earlier.match, model.match);
    });
    if (twin != kept.end())
      join_twin(*twin, std::move(model));
    else
      kept.push_back(std::move(model));
  }
  return kept;
}

// What only repeats a part of a check that is found need not be said; where the larger one may be
// luck, the part may be all there is.
void leave_out_parts(std::vector<Found>& found) {
  std::vector<Kin> proven;
  for (const Found& each : found)
    if (each.model.found()) proven.push_back(each.kin);
  std::erase_if(found, [&](const Found& each) {
    return std::ranges::any_of(proven,
                               [&](const Kin& whole) { return is_part_of(each.kin, whole); });
  });
}

// The half of a sum that never changed: whether it stays in every image that differs from the dumps
// in what varied.
bool other_half_stays(const Kin& part, const Kin& whole) {
  const std::string& other = whole.asked[part.at == whole.at ? 1 : 0];
  return std::ranges::all_of(other, [&](char byte) { return byte == other.front(); });
}

// A sum of 8 bits may be one half of a sum of 16 as long as nothing was carried into the other.
void note_wider_sums(std::vector<Found>& found) {
  for (Found& part : found) {
    for (const Found& whole : found) {
      if (!part.model.found() || !whole.model.half_proven || whole.model.copy) continue;
      if (!is_part_of(part.kin, whole.kin)) continue;
      if (!has_customary_constant(whole.model.check.rule)) continue;
      std::vector<Check>& list =
          other_half_stays(part.kin, whole.kin) ? part.model.wider : part.model.rivals;
      list.push_back(whole.model.check);
    }
  }
}

std::vector<Model> models_of(std::vector<Found> found) {
  std::vector<Model> models;
  for (Found& each : found) models.push_back(std::move(each.model));
  return models;
}

SearchResult search(const DumpSet& evidence, const Question& question, const Space& space,
                    double list_up_to, const Watch& watch) {
  const Threshold threshold{std::log2(space.models / list_up_to) - most_lift,
                            std::log2(space.models / decisive_chance)};
  SearchResult result = search_sums(evidence, question, space.width, threshold);
  if (!question.crcs) return result;
  SearchResult crcs = search_crcs(evidence, question, space.width, threshold, watch);
  result.matches.insert(result.matches.end(), crcs.matches.begin(), crcs.matches.end());
  result.complete = crcs.complete;
  result.crowded = result.crowded || crcs.crowded;
  return result;
}

bool same_place(const Model& a, const Model& b) {
  const Addresses of_a = stored_addresses(a.check), of_b = stored_addresses(b.check);
  return std::ranges::any_of(of_a, [&](Address at) { return std::ranges::count(of_b, at) != 0; });
}

void note_rivals(std::vector<Model>& models) {
  for (Model& model : models)
    for (const Model& other : models)
      if (&model != &other && model.found() && other.found() && same_place(model, other))
        model.rivals.push_back(other.check);
}

}  // namespace

bool Solution::decided() const {
  if (models.empty() || !models.front().is_settled()) return false;
  if (!models.front().wider.empty() || !models.front().carried) return false;
  if (odd && !odd->alone.empty()) return false;
  return std::none_of(models.begin() + 1, models.end(), [&](const Model& other) {
    return other.found() && same_place(other, models.front());
  });
}

bool Solution::place_decided() const {
  return decided() && models.front().twins.empty();
}

bool Solution::range_decided() const {
  if (!decided()) return false;
  const Model& model = models.front();
  return model.firsts.size() == 1 && model.lasts.size() == 1 && model.still.empty();
}

Solution solve(const DumpSet& evidence, const Question& question, const Watch& watch,
               double list_up_to) {
  Solution solution;
  solution.dumps = evidence.dumps.size();
  solution.repeats = evidence.repeats;
  for (std::size_t at = Image::ram_start; at < evidence.size(); ++at)
    if (evidence.restless[at] && evidence.varies[at])
      solution.restless.push_back(static_cast<Address>(at));
  std::vector<Found> found;
  for (const unsigned width : {8U, 16U}) {
    if (!wants_width(question, width)) continue;
    const Space space = measure_space(evidence, question, width, list_up_to);
    solution.spaces.push_back(space);
    if (!space.listed) continue;
    const SearchResult result = search(evidence, question, space, list_up_to, watch);
    solution.complete = solution.complete && result.complete;
    solution.crowded = solution.crowded || result.crowded;
    for (Kin& kin : gather_families(evidence, result.matches)) {
      Found one = describe_family(evidence, question, space, std::move(kin));
      if (!worth_listing(one, list_up_to)) continue;
      prefer_asked_kind(question, one.model);
      found.push_back(std::move(one));
    }
  }
  sort_by_likelihood(found);
  note_wider_sums(found);
  leave_out_parts(found);
  if (found.size() > most_models) {
    solution.crowded = true;
    found.erase(found.begin() + most_models, found.end());
  }
  solution.models = with_kin_joined(evidence, models_of(std::move(found)));
  note_rivals(solution.models);
  solution.next = choose_next_change(evidence, solution.models);
  return solution;
}

Solution solve(std::span<const Image> dumps, const Question& question, const Watch& watch,
               double list_up_to) {
  return solve_without_odd(dumps, question, watch, list_up_to,
                           solve(gather_evidence(dumps, question), question, watch, list_up_to));
}

}  // namespace rtcmend
