#include "repair/suspects.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fmt/format.h>
#include <map>

#include "base/error.h"
#include "base/text.h"
#include "check/discrepancy.h"
#include "layout/codec.h"
#include "repair/field_index.h"
#include "repair/fitness.h"
#include "repair/votes.h"

namespace rtcmend {

namespace {

/// A repair with the checks that it mends.
struct Candidate {
  Repair repair;
  std::vector<const Check*> mends;
};

/// Two stories of the same repair are one suspect: it is as likely as both, and told as the
/// likelier one.
void add(Candidate candidate, std::vector<Candidate>& all) {
  const auto same = std::find_if(all.begin(), all.end(), [&](const Candidate& other) {
    return other.repair.patches == candidate.repair.patches;
  });
  if (same == all.end()) {
    all.push_back(std::move(candidate));
    return;
  }
  const double both = same->repair.prior + candidate.repair.prior;
  if (candidate.repair.prior > same->repair.prior) *same = std::move(candidate);
  same->repair.prior = both;
}

/// Everything that the weighing of one dump needs.
struct Case {
  const Image& image;
  const Layout& layout;
  const Provenance& provenance;
  Trouble trouble;
  FieldIndex index;
  Fitness fit;

  Case(const Image& of, const Layout& by, const Provenance& from)
      : image(of),
        layout(by),
        provenance(from),
        trouble(trouble_in(of, by)),
        index(by),
        fit(of, by, index, from) {}

  Gain gain() const {
    return [this](const std::vector<Patch>& patches) { return fit.gain(patches); };
  }
  bool is_typed() const { return provenance.origin == Origin::hand; }
};

std::vector<Candidate> damage_candidates(const Case& of) {
  const Reach reach = reach_of(of.image, of.layout, of.trouble);
  std::vector<Repair> repairs = damage_repairs(of.image, reach, of.trouble, of.provenance.origin);
  if (of.is_typed()) {
    for (Repair& slip : slip_repairs(of.image, reach, of.trouble, of.gain()))
      repairs.push_back(std::move(slip));
    for (Repair& slip : lost_place_repairs(of.image, of.layout, of.trouble, of.gain()))
      repairs.push_back(std::move(slip));
  }
  std::vector<Candidate> all;
  for (Repair& repair : repairs) {
    auto mends = mended_by(repair.patches, of.layout, of.trouble, of.image);
    if (!mends.empty()) add({std::move(repair), std::move(mends)}, all);
  }
  return all;
}

/// Sealing is always a way out: for all failing checks at once, or for each by itself.
void add_sealing(const Case& of, const std::vector<const Check*>& checks,
                 std::vector<Candidate>& all) {
  Repair repair = sealing_repair(of.image, of.layout, checks, of.provenance.origin, of.gain());
  if (!repair.patches.empty()) add({std::move(repair), checks}, all);
}

std::vector<Candidate> candidates(const Case& of) {
  const std::vector<const Check*>& failing = of.trouble.failing;
  std::vector<Candidate> all;
  if (wavers(of.image, of.provenance.again)) {
    for (Repair& vote : votes(of.image, of.layout, of.trouble, of.provenance.again))
      add({std::move(vote), failing}, all);
    return all;
  }
  all = damage_candidates(of);
  const auto partial = [&](const Candidate& candidate) {
    return candidate.mends.size() < failing.size();
  };
  const bool one_explains_all = !std::all_of(all.begin(), all.end(), partial);
  if (one_explains_all || failing.size() == 1) {
    std::erase_if(all, partial);
    add_sealing(of, failing, all);
    return all;
  }
  for (const Check* check : failing) add_sealing(of, {check}, all);
  return all;
}

/// "Fixed disk: 15 becomes 13": what the repair makes of the fields.
std::string effects(const Image& image, const std::vector<Patch>& patches, const Layout& layout,
                    const FieldIndex& index) {
  const Image mended = patched(image, patches);
  std::vector<std::string> parts;
  for (const std::size_t i : index.resting_on(patches)) {
    const Field& field = layout.fields[i];
    const FieldReading before = read_field(field, image), after = read_field(field, mended);
    if (before.in_use != after.in_use || before.text != after.text)
      parts.push_back(fmt::format("{}: {} becomes {}", field.label, before.text, after.text));
  }
  return parts.empty() ? "" : " " + join(parts, "; ") + ".";
}

/// How likely several wrong bytes are to leave just this gap. Sums of a few bytes lie close
/// together, within 2048 of each other; every other gap is as likely as the next.
double chance_of_gap(const Check& check, const Image& image) {
  const Discrepancy gap(check, image);
  const unsigned bits = width(check);
  constexpr unsigned near_bits = 11;
  if (!gap.carries() || bits <= near_bits) return std::exp2(-static_cast<double>(bits));
  const auto now = static_cast<std::int16_t>(gap.now());
  return std::exp2(-static_cast<double>(std::abs(now) < 1024 ? near_bits : bits));
}

/// What "none of these" weighs beside the suspects for the same checks. It may explain whatever
/// speaks against the image as well as they do.
double weight_of_none(const Case& of, const std::vector<const Check*>& checks) {
  constexpr double explained = 0.2, most = 24;  // by docs/figures.md, how often odds are right
  double weight = share_of(Mishap::something_else, of.provenance.origin) *
                  std::exp2(std::min(explained * of.fit.strain(), most));
  for (const Check* check : checks) weight *= chance_of_gap(*check, of.image);
  return weight;
}

// By judgement: how often further dumps are all wrong alike, and from what odds on a choice of
// theirs is as good as made.
constexpr double all_wrong_alike = 0.02, settled = 0.9;

Suspect to_suspect(Candidate candidate, double weight) {
  Repair& repair = candidate.repair;
  Suspect suspect{
      std::move(repair.id), std::move(repair.text), std::move(repair.patches), {}, weight, false};
  for (const Check* check : candidate.mends) suspect.mends.push_back(check->id);
  return suspect;
}

/// Weights become shares among the suspects that mend the same checks, and "none of these".
void normalise(std::vector<Suspect>& all, std::map<std::vector<std::string>, double> sums) {
  for (const Suspect& suspect : all) sums[suspect.mends] += suspect.odds;
  for (Suspect& suspect : all) suspect.odds /= sums[suspect.mends];
}

/// Behind those for the same checks that come after it, when together they are likelier.
void put_sealing_back(std::vector<Suspect>& all) {
  if (all.empty() || !all.front().id.starts_with("seal-")) return;
  double smaller = 0;
  for (const Suspect& suspect : all)
    if (!suspect.id.starts_with("seal-") && suspect.mends == all.front().mends)
      smaller += suspect.odds;
  if (smaller > all.front().odds) std::rotate(all.begin(), all.begin() + 1, all.end());
}

}  // namespace

std::vector<Suspect> suspects(const Image& image, const Layout& layout,
                              const Provenance& provenance) {
  if (trouble_in(image, layout).failing.empty()) return {};
  const Case of(image, layout, provenance);
  const bool wavering = wavers(image, provenance.again);
  std::vector<Suspect> all;
  std::map<std::vector<std::string>, double> nones;
  for (Candidate& candidate : candidates(of)) {
    const Repair& repair = candidate.repair;
    const double gain = repair.seals ? 0 : of.fit.gain(repair.patches);
    const double weight = repair.prior * std::exp2(gain);
    const std::vector<const Check*> mends = candidate.mends;
    all.push_back(to_suspect(std::move(candidate), weight));
    all.back().text += effects(image, all.back().changes, layout, of.index);
    if (!nones.contains(all.back().mends))
      nones[all.back().mends] = wavering ? 0 : weight_of_none(of, mends);
  }
  if (wavering)
    for (const Suspect& suspect : all) nones[suspect.mends] += all_wrong_alike * suspect.odds;
  normalise(all, std::move(nones));
  if (wavering && !wavers_in_passwords(image, layout, provenance.again))
    for (Suspect& suspect : all) suspect.settles = suspect.odds >= settled;
  std::stable_sort(all.begin(), all.end(),
                   [](const Suspect& a, const Suspect& b) { return a.odds > b.odds; });
  if (of.is_typed()) put_sealing_back(all);
  return all;
}

std::vector<OpenShare> none_of_these(const std::vector<Suspect>& all) {
  std::vector<OpenShare> open;
  for (const Suspect& suspect : all) {
    auto own = std::find_if(open.begin(), open.end(),
                            [&](const OpenShare& one) { return one.mends == suspect.mends; });
    if (own == open.end()) own = open.insert(open.end(), {suspect.mends, 1});
    own->odds = std::max(0.0, own->odds - suspect.odds);
  }
  return open;
}

const Suspect& need_suspect(const std::vector<Suspect>& all, std::string_view id) {
  std::vector<std::string> ids;
  for (const Suspect& suspect : all) {
    if (lower(suspect.id) == lower(id)) return suspect;
    ids.push_back(suspect.id);
  }
  if (all.empty())
    refuse_choice("accept", "no check fails, so there is nothing to accept", "leave it out");
  const auto near = nearest(id, ids);
  refuse_choice("accept", fmt::format("\"{}\" is not among the suspects", printable(id)),
                near.empty()
                    ? [&]() -> Advice { return {{"One of those that are listed", Act{Act::Kind::see_repairs, {}, {}}}}; }()
                    : Advice("did you mean " + join(near, " or ") + "?"));
}

Image repaired(const Image& image, const Suspect& suspect) {
  return patched(image, suspect.changes);
}

}  // namespace rtcmend
