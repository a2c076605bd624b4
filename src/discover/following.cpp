#include "discover/following.h"

#include <algorithm>
#include <map>
#include <set>

namespace rtcmend {

namespace {

using Settings = std::vector<std::size_t>;  // indexes, ascending
using Pattern = std::vector<bool>;

struct View {
  const std::vector<Step>& steps;
  const std::vector<Visit>& visits;
  const Stirring& stirring;
  std::vector<std::string> settings;
};

std::vector<std::string> names_of(const std::vector<Visit>& visits) {
  std::vector<std::string> names;
  for (const Visit& visit : visits)
    if (!visit.setting.empty() && std::ranges::count(names, visit.setting) == 0)
      names.push_back(visit.setting);
  return names;
}

bool bit_in(const View& view, std::size_t visit, const Bit& bit) {
  const Image& image = view.steps[view.visits[visit].steps.front()].image;
  return (image[bit.at] >> bit.bit & 1) != 0;
}

std::vector<std::size_t> visits_of(const View& view, std::size_t setting) {
  std::vector<std::size_t> visits;
  for (std::size_t i = 0; i < view.visits.size(); ++i)
    if (view.visits[i].setting == view.settings[setting]) visits.push_back(i);
  return visits;
}

bool moves_with(const View& view, std::size_t setting, const Bit& bit) {
  bool seen_set = false, seen_clear = false;
  for (const std::size_t visit : visits_of(view, setting))
    if (view.stirring.agrees[bit.at][visit])
      (bit_in(view, visit, bit) ? seen_set : seen_clear) = true;
  return seen_set && seen_clear;
}

// Every bit that moves at all, by the settings it moves with.
std::map<Settings, std::vector<Bit>> sort_by_settings(const View& view) {
  std::map<Settings, std::vector<Bit>> sorted;
  for (std::size_t at = 0; at < view.stirring.settled.size(); ++at) {
    if (!view.stirring.settled[at]) continue;
    for (std::uint8_t i = 8; i-- > 0;) {
      const Bit bit{static_cast<Address>(at), i};
      Settings settings;
      for (std::size_t s = 0; s < view.settings.size(); ++s)
        if (moves_with(view, s, bit)) settings.push_back(s);
      if (!settings.empty()) sorted[settings].push_back(bit);
    }
  }
  return sorted;
}

Pattern pattern_in(const View& view, std::size_t visit, const std::vector<Bit>& bits) {
  Pattern pattern;
  for (const Bit& bit : bits) pattern.push_back(bit_in(view, visit, bit));
  return pattern;
}

std::set<Pattern> patterns_of(const View& view, std::size_t setting, const std::vector<Bit>& bits) {
  std::set<Pattern> patterns;
  for (const std::size_t visit : visits_of(view, setting)) {
    const bool agrees = std::ranges::all_of(
        bits, [&](const Bit& bit) { return view.stirring.agrees[bit.at][visit]; });
    if (agrees) patterns.insert(pattern_in(view, visit, bits));
  }
  return patterns;
}

// Whether all that the other settings do to these bits are states that `owner` itself can bring
// about.
bool explains(const View& view, std::size_t owner, const Settings& settings,
              const std::vector<Bit>& bits) {
  const std::set<Pattern> own = patterns_of(view, owner, bits);
  return std::ranges::all_of(settings, [&](std::size_t other) {
    const std::set<Pattern> brought = patterns_of(view, other, bits);
    return std::ranges::includes(own, brought);
  });
}

// The setting that owns bits which move with several: the count of settings where none does, or
// where nobody can say which.
std::size_t find_owner(const View& view, const std::map<Settings, std::vector<Bit>>& sorted,
                       const Settings& settings, const std::vector<Bit>& shared) {
  std::size_t found = view.settings.size();
  for (const std::size_t owner : settings) {
    std::vector<Bit> bits = shared;
    if (const auto own = sorted.find({owner}); own != sorted.end())
      bits.insert(bits.end(), own->second.begin(), own->second.end());
    if (!explains(view, owner, settings, bits)) continue;
    if (found < view.settings.size()) return view.settings.size();
    found = owner;
  }
  return found;
}

bool stand_in(const std::vector<Bit>& bits, Address at) {
  return std::ranges::any_of(bits, [at](const Bit& bit) { return bit.at == at; });
}

// Whether the bits of a setting tell as much without those in this byte.
bool is_redundant(const View& view, std::size_t setting, const std::vector<Bit>& bits, Address at) {
  std::vector<Bit> rest;
  std::ranges::copy_if(bits, std::back_inserter(rest), [at](const Bit& b) { return b.at != at; });
  return patterns_of(view, setting, rest).size() == patterns_of(view, setting, bits).size();
}

std::size_t index_of(const View& view, const std::string& setting) {
  return static_cast<std::size_t>(std::ranges::find(view.settings, setting) -
                                  view.settings.begin());
}

// Worked-out bits that stand in one byte are one value.
void join_in_one_byte(std::vector<Shared>& shared) {
  for (std::size_t i = 0; i < shared.size(); ++i) {
    for (std::size_t k = shared.size(); k-- > i + 1;) {
      if (!stand_in(shared[k].bits, shared[i].bits.front().at)) continue;
      for (const std::string& setting : shared[k].settings)
        if (std::ranges::count(shared[i].settings, setting) == 0)
          shared[i].settings.push_back(setting);
      shared[i].bits.insert(shared[i].bits.end(), shared[k].bits.begin(), shared[k].bits.end());
      shared.erase(shared.begin() + static_cast<std::ptrdiff_t>(k));
    }
  }
}

void take_redundant_bits(const View& view, Follower& follower, Shared& shared) {
  const std::size_t setting = index_of(view, follower.setting);
  for (const Bit& one : std::vector<Bit>(shared.bits)) {
    if (!stand_in(follower.bits, one.at)) continue;
    if (!is_redundant(view, setting, follower.bits, one.at)) continue;
    for (const Bit& bit : follower.bits)
      if (bit.at == one.at) shared.bits.push_back(bit);
    std::erase_if(follower.bits, [&](const Bit& bit) { return bit.at == one.at; });
    if (std::ranges::count(shared.settings, follower.setting) == 0)
      shared.settings.push_back(follower.setting);
  }
}

void sort_bits(std::vector<Bit>& bits) {
  std::ranges::sort(
      bits, [](const Bit& a, const Bit& b) { return a.at != b.at ? a.at < b.at : a.bit > b.bit; });
}

void add_bits(std::vector<Bit>& to, const std::vector<Bit>& bits) {
  to.insert(to.end(), bits.begin(), bits.end());
  sort_bits(to);
}

void add_word(std::vector<std::string>& words, const std::string& word) {
  if (std::ranges::count(words, word) == 0) words.push_back(word);
}

}  // namespace

Following find_following(const std::vector<Step>& steps, const std::vector<Visit>& visits,
                         const Stirring& stirring) {
  const View view{steps, visits, stirring, names_of(visits)};
  const auto sorted = sort_by_settings(view);
  Following following;
  for (const std::string& name : view.settings) following.followers.push_back({name, {}, {}});
  for (const auto& [settings, bits] : sorted) {
    const std::size_t owner =
        settings.size() == 1 ? settings[0] : find_owner(view, sorted, settings, bits);
    if (owner < view.settings.size()) {
      add_bits(following.followers[owner].bits, bits);
      for (const std::size_t other : settings)
        if (other != owner) add_word(following.followers[other].drags, view.settings[owner]);
    } else {
      Shared shared;
      for (const std::size_t s : settings) shared.settings.push_back(view.settings[s]);
      add_bits(shared.bits, bits);
      following.shared.push_back(std::move(shared));
    }
  }
  join_in_one_byte(following.shared);
  for (Shared& shared : following.shared) {
    for (Follower& follower : following.followers) take_redundant_bits(view, follower, shared);
    sort_bits(shared.bits);
  }
  return following;
}

}  // namespace rtcmend
