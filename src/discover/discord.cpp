#include "discover/discord.h"

#include <algorithm>
#include <optional>
#include <set>

namespace rtcmend {

namespace {

using Bytes = std::string;

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

// Whether a visit's dumps differ there by no more than a carry of the neighbour would make.
bool differ_by_a_carry(const std::vector<Step>& steps, const Visit& visit, Address at) {
  constexpr int most = 2;  // one carry, and another where a copy of the count is summed as well
  const int first = steps[visit.steps.front()].image[at];
  return std::ranges::all_of(visit.steps, [&](std::size_t step) {
    const int step_up = (steps[step].image[at] - first) & 0xFF;
    return step_up <= most || step_up >= 0x100 - most;
  });
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

}  // namespace

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
    // counters: then it moves by carries.
    const bool may_carry =
        moves_on[at] || ((is_restless(at - 1) || is_restless(at + 1)) &&
                         std::ranges::all_of(disputed[at], [&](std::size_t visit) {
                           return differ_by_a_carry(steps, visits[visit], static_cast<Address>(at));
                         }));
    disputes.steady[at] = !is_restless(at) && (!moves_on[at] || disputed[at].empty());
    disputes.fair[at] = !is_restless(at) && (!may_carry || disputed[at].empty());
    if (!disputes.fair[at]) continue;
    for (const std::size_t visit : disputed[at])
      disputes.by_visit[visit].push_back(static_cast<Address>(at));
  }
  return disputes;
}

std::string steady_bytes(const Image& image, const std::vector<bool>& steady) {
  std::string bytes;
  for (std::size_t at = 0; at < steady.size(); ++at)
    if (steady[at]) bytes += static_cast<char>(image[static_cast<Address>(at)]);
  return bytes;
}

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

}  // namespace rtcmend
