#include "judge/identify.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "judge/evidence.h"

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

bool leads_clearly(const std::vector<Candidate>& ranked) {
  if (ranked.empty()) return false;
  if (ranked.size() == 1) return true;
  return ranked[0].score >= enough_bits && ranked[0].score - ranked[1].score >= clear_lead;
}

}  // namespace

Identification identify(const Image& image, const std::vector<Layout>& layouts) {
  Identification identification;
  std::vector<Candidate>& candidates = identification.candidates;
  for (const Layout& layout : layouts)
    if (layout.size == image.size()) candidates.push_back(judge(layout, image));
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](const Candidate& a, const Candidate& b) { return a.score > b.score; });
  if (leads_clearly(candidates)) identification.clear = candidates.front().layout;
  return identification;
}

}  // namespace rtcmend
