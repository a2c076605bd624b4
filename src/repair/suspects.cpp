#include "repair/suspects.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>

#include "base/error.h"
#include "base/text.h"
#include "layout/codec.h"
#include "repair/field_index.h"
#include "repair/plausibility.h"

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

std::vector<Candidate> damage_candidates(const Image& image, const Layout& layout,
                                         const Trouble& trouble) {
  std::vector<Candidate> all;
  for (Repair& repair : damage_repairs(image, layout, trouble)) {
    auto mends = mended_by(repair.patches, layout, trouble, image);
    if (!mends.empty()) add({std::move(repair), std::move(mends)}, all);
  }
  return all;
}

/// Sealing is always a way out: for all failing checks at once, or for each by itself.
void add_sealing(const Image& image, const Layout& layout, const std::vector<const Check*>& checks,
                 std::vector<Candidate>& all) {
  Repair repair = sealing_repair(image, layout, checks);
  if (!repair.patches.empty()) add({std::move(repair), checks}, all);
}

std::vector<Candidate> candidates(const Image& image, const Layout& layout,
                                  const Trouble& trouble) {
  std::vector<Candidate> all = damage_candidates(image, layout, trouble);
  const auto partial = [&](const Candidate& candidate) {
    return candidate.mends.size() < trouble.failing.size();
  };
  const bool one_explains_all = !std::all_of(all.begin(), all.end(), partial);
  if (one_explains_all || trouble.failing.size() == 1) {
    std::erase_if(all, partial);
    add_sealing(image, layout, trouble.failing, all);
    return all;
  }
  for (const Check* check : trouble.failing) add_sealing(image, layout, {check}, all);
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

Suspect to_suspect(Candidate candidate, double weight) {
  Repair& repair = candidate.repair;
  Suspect suspect{
      std::move(repair.id), std::move(repair.text), std::move(repair.patches), {}, weight};
  for (const Check* check : candidate.mends) suspect.mends.push_back(check->id);
  return suspect;
}

/// Weights become shares among the suspects that mend the same checks.
void normalise(std::vector<Suspect>& all) {
  std::map<std::vector<std::string>, double> sums;
  for (const Suspect& suspect : all) sums[suspect.mends] += suspect.odds;
  for (Suspect& suspect : all) suspect.odds /= sums[suspect.mends];
}

}  // namespace

std::vector<Suspect> suspects(const Image& image, const Layout& layout) {
  const Trouble trouble = trouble_in(image, layout);
  if (trouble.failing.empty()) return {};
  const FieldIndex index(layout);
  const Plausibility plausibility(image, layout, index);
  std::vector<Suspect> all;
  for (Candidate& candidate : candidates(image, layout, trouble)) {
    const Repair& repair = candidate.repair;
    const double weight = repair.prior * std::exp2(plausibility.gain(repair.patches));
    all.push_back(to_suspect(std::move(candidate), weight));
    all.back().text += effects(image, all.back().changes, layout, index);
  }
  normalise(all);
  std::stable_sort(all.begin(), all.end(),
                   [](const Suspect& a, const Suspect& b) { return a.odds > b.odds; });
  return all;
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
