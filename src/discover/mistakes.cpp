#include "discover/mistakes.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "discover/discord.h"

namespace rtcmend {

namespace {

// Fewer bytes that all other dumps hold could be luck.
constexpr std::size_t least_lost = 4;

bool is_uniform(const Image& image) {
  for (std::size_t at = Image::ram_start; at < image.size(); ++at)
    if (image[static_cast<Address>(at)] != image[Image::ram_start]) return false;
  return true;
}

// Uniform, where all other dumps agree about bytes that it does not have.
bool is_blank(const std::vector<Step>& steps, std::size_t step) {
  if (!is_uniform(steps[step].image)) return false;
  const Image& other = steps[step == 0 ? 1 : 0].image;
  std::size_t lost = 0;
  for (std::size_t i = Image::ram_start; i < other.size(); ++i) {
    const auto at = static_cast<Address>(i);
    bool agreed = other[at] != steps[step].image[at];
    for (std::size_t k = 0; k < steps.size(); ++k)
      agreed =
          agreed && (k == step || is_uniform(steps[k].image) || steps[k].image[at] == other[at]);
    if (agreed) ++lost;
  }
  return lost >= least_lost;
}

std::string label_of(const Step& step) {
  return step.setting.empty() ? "with nothing changed" : step.setting + "=" + step.value;
}

std::vector<Mistake> find_blanks(const std::vector<Step>& steps) {
  std::vector<Mistake> mistakes;
  for (std::size_t i = 0; i < steps.size(); ++i)
    if (steps.size() > 2 && is_blank(steps, i))
      mistakes.push_back({i, fmt::format("{} ({}) is blank: every byte of its memory is {}. It is "
                                         "left out; read the chip again",
                                         steps[i].name, label_of(steps[i]),
                                         hex_prose(steps[i].image[Image::ram_start]))});
  return mistakes.size() < steps.size() ? mistakes : std::vector<Mistake>{};
}

using Dumps = std::vector<std::size_t>;  // numbers of steps, ascending

std::vector<Step> without_dumps(const std::vector<Step>& steps, const Dumps& dumps) {
  std::vector<Step> rest;
  for (std::size_t i = 0; i < steps.size(); ++i)
    if (std::ranges::count(dumps, i) == 0) rest.push_back(steps[i]);
  return rest;
}

// The dumps of a visit without any one of which it would disagree less.
Dumps candidates_in(const std::vector<Step>& steps, const Visit& visit, const Disputes& disputes,
                    const Discord& before) {
  Dumps candidates;
  for (const std::size_t step : visit.steps)
    if (discord_of(without_dumps(steps, {step}), disputes).disputes < before.disputes)
      candidates.push_back(step);
  return candidates;
}

// Every way to leave out one dump of each visit in dispute. None when there are too many.
std::vector<Dumps> ways_out(const std::vector<Step>& steps, const Disputes& disputes) {
  constexpr std::size_t most_ways = 256;
  const std::vector<Visit> visits = gather_visits(steps);
  const Discord before = discord_of(steps, disputes);
  std::vector<Dumps> ways = {{}};
  for (const auto& [visit, bytes] : disputes.by_visit) {
    const Dumps candidates = candidates_in(steps, visits[visit], disputes, before);
    if (candidates.empty()) continue;
    std::vector<Dumps> longer;
    for (const Dumps& way : ways) {
      for (const std::size_t candidate : candidates) {
        longer.push_back(way);
        longer.back().push_back(candidate);
      }
    }
    if (longer.size() > most_ways) return {};
    ways = std::move(longer);
  }
  return ways;
}

// The dumps that every best way leaves out: exchanged ones show themselves only together.
Dumps wrong_dumps(const std::vector<Step>& steps, const Disputes& disputes) {
  std::optional<Discord> least;
  Dumps wrong;
  for (Dumps& way : ways_out(steps, disputes)) {
    const Discord discord = discord_of(without_dumps(steps, way), disputes);
    if (!least || discord < *least) {
      least = discord;
      wrong = std::move(way);
    } else if (discord == *least) {
      std::erase_if(wrong, [&](std::size_t step) { return std::ranges::count(way, step) == 0; });
    }
  }
  std::ranges::sort(wrong);
  return wrong;
}

Addresses disputed_with(const std::vector<Step>& steps, std::size_t step,
                        const std::vector<bool>& fair) {
  Addresses bytes;
  for (std::size_t at = 0; at < fair.size(); ++at)
    for (std::size_t other = 0; fair[at] && other < steps.size(); ++other)
      if (steps[other].setting == steps[step].setting && steps[other].value == steps[step].value &&
          steps[other].image[static_cast<Address>(at)] !=
              steps[step].image[static_cast<Address>(at)]) {
        bytes.push_back(static_cast<Address>(at));
        break;
      }
  return bytes;
}

std::string suspicion(const std::vector<Step>& steps, std::size_t step,
                      const std::vector<bool>& steady) {
  const Step& wrong = steps[step];
  for (const Step& other : steps)
    if (&other != &wrong && label_of(other) != label_of(wrong) &&
        steady_bytes(other.image, steady) == steady_bytes(wrong.image, steady))
      return fmt::format(
          "it shows what {} ({}) shows, so it was not saved or carries the wrong "
          "label",
          other.name, label_of(other));
  return "it is damaged, or carries the wrong label";
}

}  // namespace

std::vector<Mistake> find_mistakes(const std::vector<Step>& steps) {
  std::vector<Mistake> mistakes = find_blanks(steps);
  const std::vector<Step> rest = without(steps, mistakes);
  const Disputes disputes = disputes_in(rest, gather_visits(rest));
  const Dumps wrong = wrong_dumps(rest, disputes);
  const std::size_t most = std::max<std::size_t>(1, steps.size() / 4);
  if (mistakes.size() + wrong.size() > most) return mistakes;
  Dumps original;  // by number in `rest`: the number in the session
  for (std::size_t i = 0; i < steps.size(); ++i)
    if (std::ranges::none_of(mistakes, [i](const Mistake& blank) { return blank.step == i; }))
      original.push_back(i);
  for (const std::size_t step : wrong)
    mistakes.push_back(
        {original[step],
         fmt::format("{} ({}) does not fit the other dumps at {}: {}. It is left out",
                     rest[step].name, label_of(rest[step]),
                     to_prose(disputed_with(rest, step, disputes.fair)),
                     suspicion(rest, step, disputes.steady))});
  return mistakes;
}

std::vector<Step> without(const std::vector<Step>& steps, const std::vector<Mistake>& mistakes) {
  std::vector<Step> rest;
  for (std::size_t i = 0; i < steps.size(); ++i)
    if (std::ranges::none_of(mistakes, [i](const Mistake& mistake) { return mistake.step == i; }))
      rest.push_back(steps[i]);
  return rest;
}

}  // namespace rtcmend
