#include "judge/identify.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "judge/evidence.h"
#include "layout/kinship.h"

namespace rtcmend {

namespace {

// A layout is taken as known when chance would do as well once in 256 times, and no other layout
// comes within a factor of 64.
constexpr double enough_bits = 8, clear_lead = 6;

Candidate judge(const Layout& layout, const Image& image) {
  const Evidence checks = evidence_of_checks(layout, image);
  const Evidence fields = evidence_of_fields(layout, image);
  std::vector<std::string> why = checks.why;
  why.insert(why.end(), fields.why.begin(), fields.why.end());
  // Tenths of a bit are more than the weights deserve.
  return {layout.id, std::round((checks.bits + fields.bits) * 10) / 10, join(why, "; ")};
}

const Layout& layout_of(const Candidate& candidate, const std::vector<Layout>& layouts) {
  return *std::find_if(layouts.begin(), layouts.end(),
                       [&](const Layout& layout) { return layout.id == candidate.layout; });
}

/// The candidates so close to the first that evidence cannot tell them apart.
std::vector<Candidate> rivals(const std::vector<Candidate>& ranked) {
  std::vector<Candidate> close;
  for (const Candidate& candidate : ranked)
    if (ranked[0].score - candidate.score < clear_lead) close.push_back(candidate);
  return close;
}

/// The rival that all others only say more about than it does: it is true whichever of them is.
std::string common_ground(const std::vector<Candidate>& close, const std::vector<Layout>& layouts) {
  for (const Candidate& plain : close) {
    const bool under_all = std::all_of(close.begin(), close.end(), [&](const Candidate& other) {
      return other.layout == plain.layout ||
             refines(layout_of(other, layouts), layout_of(plain, layouts));
    });
    if (under_all) return plain.layout;
  }
  return {};
}

/// The layout to take as known, or nothing.
std::string clear_one(const std::vector<Candidate>& ranked, const std::vector<Layout>& layouts) {
  if (ranked.empty()) return {};
  if (ranked.size() == 1) return ranked[0].layout;
  if (ranked[0].score < enough_bits) return {};
  return common_ground(rivals(ranked), layouts);
}

}  // namespace

Identification identify(const Image& image, const std::vector<Layout>& layouts) {
  Identification identification;
  std::vector<Candidate>& candidates = identification.candidates;
  for (const Layout& layout : layouts)
    if (layout.size == image.size()) candidates.push_back(judge(layout, image));
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](const Candidate& a, const Candidate& b) { return a.score > b.score; });
  identification.clear = clear_one(candidates, layouts);
  return identification;
}

}  // namespace rtcmend
