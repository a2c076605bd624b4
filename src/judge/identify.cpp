#include "judge/identify.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/text.h"
#include "judge/evidence.h"
#include "layout/kinship.h"

namespace rtcmend {

namespace {

// A layout is taken as known when chance would do as well once in 256 times, and no other layout
// comes within a factor of 64.
constexpr double enough_bits = 8, clear_lead = 6;

struct Ranked {
  const Layout* layout = nullptr;
  Candidate candidate;
};

Candidate judge(const Layout& layout, const Image& image) {
  const Evidence checks = evidence_of_checks(layout, image);
  const Evidence fields = evidence_of_fields(layout, image);
  std::vector<std::string> why = checks.why;
  why.insert(why.end(), fields.why.begin(), fields.why.end());
  // Tenths of a bit are more than the weights deserve.
  return {layout.id, std::round((checks.bits + fields.bits) * 10) / 10, join(why, "; ")};
}

/// The more likely one first; of equals the one that claims less.
bool ranks_before(const Ranked& a, const Ranked& b) {
  if (a.candidate.score != b.candidate.score) return a.candidate.score > b.candidate.score;
  return a.layout->fields.size() < b.layout->fields.size();
}

bool leads(const Ranked& one, const Ranked& other) {
  return one.candidate.score - other.candidate.score >= clear_lead;
}

/// Layouts with the same checks are one family: they seal alike and differ in what they can name.
bool same_checks(const Layout& a, const Layout& b) {
  return std::equal(a.checks.begin(), a.checks.end(), b.checks.begin(), b.checks.end(),
                    [](const Check& one, const Check& other) { return one.id == other.id; });
}

/// The best of a family where it leads; else the one that claims least, which is never wrong.
const Ranked& choose_from_family(const std::vector<Ranked>& family) {
  if (family.size() == 1 || leads(family[0], family[1])) return family.front();
  return *std::min_element(family.begin(), family.end(), [](const Ranked& a, const Ranked& b) {
    return a.layout->fields.size() < b.layout->fields.size();
  });
}

/// The id of the layout that can be taken as known; empty when there is none.
std::string clear_one(const std::vector<Ranked>& ranked) {
  if (ranked.empty()) return {};
  if (ranked.size() == 1) return ranked.front().layout->id;
  const Ranked& best = ranked.front();
  if (best.candidate.score < enough_bits) return {};
  std::vector<Ranked> family;
  for (const Ranked& one : ranked) {
    if (same_checks(*one.layout, *best.layout))
      family.push_back(one);
    else if (!leads(best, one))
      return {};
  }
  return choose_from_family(family).layout->id;
}

}  // namespace

Identification identify(const Image& image, const std::vector<Layout>& layouts) {
  std::vector<Ranked> ranked;
  for (const Layout& layout : layouts)
    if (layout.size == image.size()) ranked.push_back({&layout, judge(layout, image)});
  std::stable_sort(ranked.begin(), ranked.end(), ranks_before);
  Identification identification;
  identification.clear = clear_one(ranked);
  for (Ranked& one : ranked) identification.candidates.push_back(std::move(one.candidate));
  return identification;
}

}  // namespace rtcmend
