#include "discover/odd_dump.h"

#include <algorithm>

namespace rtcmend {

namespace {

// With fewer, what is left is too little to find a check by.
constexpr std::size_t least_dumps = 5;
// So many searches at most; each leaves out every so many-eth dump.
constexpr std::size_t most_groups = 6;

using Dumps = std::vector<Image>;

Dumps without_group(std::span<const Image> dumps, std::size_t group, std::size_t groups) {
  Dumps rest;
  for (std::size_t i = 0; i < dumps.size(); ++i)
    if (i % groups != group) rest.push_back(dumps[i]);
  return rest;
}

Dumps without_one(std::span<const Image> dumps, std::size_t odd) {
  Dumps rest(dumps.begin(), dumps.end());
  rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(odd));
  return rest;
}

bool all_alike(const Dumps& dumps) {
  return std::ranges::all_of(dumps, [&](const Image& dump) { return dump == dumps.front(); });
}

// The dump in which a check does not hold, when it is the only one.
std::optional<std::size_t> only_odd_one(std::span<const Image> dumps, const Check& check) {
  std::optional<std::size_t> odd;
  for (std::size_t i = 0; i < dumps.size(); ++i) {
    const CheckResult result = evaluate(check, dumps[i]);
    if (result.stored && result.stored == result.computed) continue;
    if (odd) return std::nullopt;
    odd = i;
  }
  return odd;
}

// Bytes in which all other dumps agree and this one differs.
Addresses alone_in(std::span<const Image> dumps, std::size_t odd, const Addresses& restless) {
  const Image& other = dumps[odd == 0 ? 1 : 0];
  Addresses alone;
  for (std::size_t i = Image::ram_start; i < other.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (std::ranges::count(restless, at) != 0 || dumps[odd].at(at) == other.at(at)) continue;
    bool agreed = true;
    for (std::size_t k = 0; k < dumps.size(); ++k)
      agreed = agreed && (k == odd || dumps[k].at(at) == other.at(at));
    if (agreed) alone.push_back(at);
  }
  return alone;
}

bool finds_something(const Solution& solution) {
  return std::ranges::any_of(solution.models, &Model::found);
}

}  // namespace

Solution solve_without_odd(std::span<const Image> dumps, const Question& question,
                           const Watch& watch, double list_up_to, Solution whole) {
  if (finds_something(whole) || !whole.complete || dumps.size() < least_dumps) return whole;
  const std::size_t groups = std::min(dumps.size(), most_groups);
  std::size_t group = 0;
  Watch part{nullptr, watch.stop};
  if (watch.progress)
    part.progress = [&](double done) {
      watch.progress((static_cast<double>(group) + done) / static_cast<double>(groups));
    };
  const auto search = [&](const Dumps& rest) {
    return solve(gather_evidence(rest, question), question, part, list_up_to);
  };
  for (; group < groups && !watch.stopped(); ++group) {
    const Dumps rest = without_group(dumps, group, groups);
    if (all_alike(rest)) continue;
    for (const Model& model : search(rest).models) {
      const double chance = model.chance * static_cast<double>(dumps.size());
      if (!model.found() || chance >= decisive_chance) continue;
      const auto odd = only_odd_one(dumps, model.check);
      if (!odd) continue;
      Solution solution = search(without_one(dumps, *odd));
      if (!finds_something(solution)) continue;
      solution.odd = OddDump{*odd, alone_in(dumps, *odd, solution.restless)};
      return solution;
    }
  }
  whole.complete = !watch.stopped();
  return whole;
}

}  // namespace rtcmend
