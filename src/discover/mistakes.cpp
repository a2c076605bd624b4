#include "discover/mistakes.h"

#include <algorithm>
#include <compare>
#include <fmt/format.h>
#include <map>
#include <set>

#include "base/text.h"

namespace rtcmend {

namespace {

// A byte that disagrees with itself in more visits than this moves by itself.
constexpr std::size_t most_disputes = 2;

bool same_in(const std::vector<Step>& steps, const Visit& visit, Address at) {
  return std::ranges::all_of(visit.steps, [&](std::size_t step) {
    return steps[step].image[at] == steps[visit.steps.front()].image[at];
  });
}

// Where a byte takes on another value, by dump; empty when it never does, or when a value that was
// gone comes back. Counting up, or one start that stored something for good, looks so; a slip at
// the bench does not: the dumps after it are right again.
std::vector<std::size_t> times_it_moved_on(const std::vector<Step>& steps, Address at) {
  std::vector<std::size_t> moves;
  std::set<std::uint8_t> seen = {steps.front().image[at]};
  for (std::size_t step = 1; step < steps.size(); ++step) {
    const std::uint8_t byte = steps[step].image[at];
    if (byte == steps[step - 1].image[at]) continue;
    if (!seen.insert(byte).second) return {};
    moves.push_back(step);
  }
  return moves;
}

// Bytes that move on by themselves. Where only the first or only the last dump is another, that
// dump is the slip when it differs in several bytes so, and not when it does in one.
std::vector<bool> moving_on(const std::vector<Step>& steps) {
  std::vector<bool> moves_on(steps.front().image.size(), false);
  std::map<std::size_t, Addresses> at_an_end;  // by the dump where they move
  for (std::size_t i = Image::ram_start; i < moves_on.size(); ++i) {
    const auto at = static_cast<Address>(i);
    const auto moves = times_it_moved_on(steps, at);
    moves_on[at] = !moves.empty();
    if (moves.size() == 1 && (moves[0] == 1 || moves[0] == steps.size() - 1))
      at_an_end[moves[0]].push_back(at);
  }
  for (const auto& [step, bytes] : at_an_end)
    for (const Address at : bytes) moves_on[at] = bytes.size() == 1;
  return moves_on;
}

// The visits in which each byte disagrees with itself.
struct Disputes {
  std::size_t count = 0;     // of bytes that do not move by themselves
  std::vector<bool> steady;  // by address: it does not move by itself
  std::vector<bool> fair;  // by address: steady, and what differs there may be held against a dump
  std::map<std::size_t, Addresses> by_visit;
};

Disputes disputes_in(const std::vector<Step>& steps, const std::vector<Visit>& visits) {
  Disputes disputes;
  const std::size_t size = steps.front().image.size();
  disputes.steady.assign(size, false);
  disputes.fair.assign(size, false);
  const std::vector<bool> moves_on = moving_on(steps);
  std::vector<std::vector<std::size_t>> disputed(size);  // by address: the visits
  for (std::size_t at = Image::ram_start; at < size; ++at)
    for (std::size_t v = 0; v < visits.size(); ++v)
      if (!same_in(steps, visits[v], static_cast<Address>(at))) disputed[at].push_back(v);
  const auto is_restless = [&](std::size_t at) {
    return at < size && disputed[at].size() > most_disputes;
  };
  for (std::size_t at = Image::ram_start; at < size; ++at) {
    // Beside a byte that moves by itself it may be that one's other half, as of a sum over
    // counters.
    const bool may_carry = is_restless(at - 1) || is_restless(at + 1) || moves_on[at];
    disputes.steady[at] = !is_restless(at);
    disputes.fair[at] = !is_restless(at) && (!may_carry || disputed[at].empty());
    if (!disputes.fair[at]) continue;
    disputes.count += disputed[at].size();
    for (const std::size_t visit : disputed[at])
      disputes.by_visit[visit].push_back(static_cast<Address>(at));
  }
  return disputes;
}

// How well a session hangs together: less is better, in this order.
struct Discord {
  std::size_t disputes = 0;
  std::size_t alike = 0;   // values that look like another one, of that setting or of another
  std::size_t shared = 0;  // bits that move with more than one setting
  std::size_t moved = 0;   // bits that move with settings at all

  friend auto operator<=>(const Discord&, const Discord&) = default;
};

using Bytes = std::string;

Bytes steady_bytes(const Image& image, const std::vector<bool>& steady) {
  Bytes bytes;
  for (std::size_t at = 0; at < steady.size(); ++at)
    if (steady[at]) bytes += static_cast<char>(image[static_cast<Address>(at)]);
  return bytes;
}

// The steady bytes of a setting's dumps: of one dump of each visit that agrees with itself, since
// what is in dispute speaks for neither side, and of every dump.
struct States {
  std::vector<Bytes> agreed, all;
};

std::map<std::string, States> states_of(const std::vector<Step>& steps,
                                        const std::vector<Visit>& visits,
                                        const std::vector<bool>& steady) {
  std::map<std::string, States> states;
  for (const Visit& visit : visits) {
    if (visit.setting.empty()) continue;
    std::vector<Bytes> own;
    for (const std::size_t step : visit.steps)
      own.push_back(steady_bytes(steps[step].image, steady));
    States& of_setting = states[visit.setting];
    if (std::ranges::count(own, own.front()) == std::ssize(own))
      of_setting.agreed.push_back(own.front());
    of_setting.all.insert(of_setting.all.end(), own.begin(), own.end());
  }
  return states;
}

// What dumps with nothing changed show; nothing when there is none.
std::optional<Bytes> rest_of(const std::vector<Step>& steps, const std::vector<bool>& steady) {
  for (const Step& step : steps)
    if (step.setting.empty()) return steady_bytes(step.image, steady);
  return std::nullopt;
}

// Every setting may show the machine at rest, once; what else two values show is one dump too many.
std::size_t count_alike(const std::map<std::string, States>& states_by_setting,
                        const std::optional<Bytes>& rest) {
  std::size_t alike = 0;
  std::set<Bytes> seen;
  for (const auto& [setting, states] : states_by_setting) {
    std::set<Bytes> own;
    for (const Bytes& bytes : states.agreed)
      if (!own.insert(bytes).second || (rest && bytes != *rest && !seen.insert(bytes).second))
        ++alike;
  }
  return alike;
}

bool moves(const std::vector<Bytes>& dumps, std::size_t bit) {
  const auto is_set = [bit](const Bytes& bytes) { return (bytes[bit / 8] >> (bit % 8) & 1) != 0; };
  const auto set = static_cast<std::size_t>(std::ranges::count_if(dumps, is_set));
  return set > 0 && set < dumps.size();
}

// The bytes that every dump is judged by are those of the whole session, whoever is left out.
Discord discord_of(const std::vector<Step>& steps, const Disputes& whole) {
  const std::vector<Visit> visits = gather_visits(steps);
  Discord discord;
  for (const Visit& visit : visits)
    for (std::size_t at = 0; at < whole.fair.size(); ++at)
      if (whole.fair[at] && !same_in(steps, visit, static_cast<Address>(at))) ++discord.disputes;
  const auto states_by_setting = states_of(steps, visits, whole.steady);
  discord.alike = count_alike(states_by_setting, rest_of(steps, whole.steady));
  std::vector<std::size_t> movers;  // by bit: how many settings move it
  for (const auto& [setting, states] : states_by_setting) {
    movers.resize(states.all.front().size() * 8, 0);
    for (std::size_t bit = 0; bit < movers.size(); ++bit)
      if (moves(states.all, bit)) ++movers[bit];
  }
  for (const std::size_t count : movers) {
    discord.moved += count > 0 ? 1 : 0;
    discord.shared += count > 1 ? 1 : 0;
  }
  return discord;
}

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

std::vector<Step> without_one(std::vector<Step> steps, std::size_t step) {
  steps.erase(steps.begin() + static_cast<std::ptrdiff_t>(step));
  return steps;
}

struct Suspect {
  std::size_t step = 0;
  Discord without;  // what is left of the discord when it is left out
};

// Of the dumps of one visit, the one without which the session agrees best; nothing when two are
// equal, or when it would not agree better.
std::optional<Suspect> suspect_in(const std::vector<Step>& steps, const Visit& visit,
                                  const Disputes& whole, const Discord& before) {
  std::optional<Suspect> suspect;
  bool tied = false;
  for (const std::size_t step : visit.steps) {
    const Discord discord = discord_of(without_one(steps, step), whole);
    if (discord.disputes >= before.disputes) continue;
    if (suspect && discord == suspect->without) tied = true;
    if (suspect && discord >= suspect->without) continue;
    suspect = {step, discord};
    tied = false;
  }
  return tied ? std::nullopt : suspect;
}

std::optional<std::size_t> worst_of(const std::vector<Step>& steps, const Disputes& disputes) {
  const std::vector<Visit> visits = gather_visits(steps);
  const Discord before = discord_of(steps, disputes);
  std::optional<Suspect> worst;
  for (const auto& [visit, bytes] : disputes.by_visit) {
    const auto suspect = suspect_in(steps, visits[visit], disputes, before);
    if (suspect && (!worst || suspect->without < worst->without)) worst = suspect;
  }
  if (!worst) return std::nullopt;
  return worst->step;
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
  const std::size_t most = std::max<std::size_t>(1, steps.size() / 4);
  while (mistakes.size() < most) {
    const std::vector<Step> rest = without(steps, mistakes);
    const Disputes disputes = disputes_in(rest, gather_visits(rest));
    if (disputes.count == 0) break;
    const auto worst = worst_of(rest, disputes);
    if (!worst) break;
    const std::string text = fmt::format(
        "{} ({}) does not fit the other dumps at {}: {}. It is left out", rest[*worst].name,
        label_of(rest[*worst]), to_prose(disputed_with(rest, *worst, disputes.fair)),
        suspicion(rest, *worst, disputes.steady));
    std::size_t original = *worst;
    std::vector<std::size_t> gone;
    for (const Mistake& mistake : mistakes) gone.push_back(mistake.step);
    std::ranges::sort(gone);
    for (const std::size_t step : gone)
      if (step <= original) ++original;
    mistakes.push_back({original, text});
  }
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
