#include "judge/identify.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

#include "base/text.h"
#include "judge/evidence.h"
#include "judge/misreads.h"
#include "judge/rearrange.h"
#include "judge/tie.h"

namespace rtcmend {

namespace {

// A layout is taken as known when chance would do as well once in 512 times, the clock does
// not speak against it more than that allows, and no other comes within a factor of 64. Variants
// that differ in fields alone are many, so that chance makes one of them look good more often:
// there the factor is 512.
constexpr double enough_bits = 9, enough_with_clock = 12, clear_lead = 6, clear_lead_by_fields = 9;

struct Ranked {
  const Layout* layout = nullptr;
  double bits = 0;
  double own_bits = 0;  ///< without what every clock chip's dump has for it
  bool damaged = false;
  std::string why;
};

/// Tenths of a bit are more than the weights deserve.
double rounded(double bits) {
  return std::round(bits * 10) / 10;
}

Ranked judge(const Layout& layout, const Image& image, const Evidence& chip) {
  const CheckEvidence checks = evidence_of_checks(layout, image);
  const Evidence fields = evidence_of_fields(layout, image);
  std::vector<std::string> why = checks.why;
  why.insert(why.end(), fields.why.begin(), fields.why.end());
  why.insert(why.end(), chip.why.begin(), chip.why.end());
  const double own = checks.bits + fields.bits;
  return {&layout, rounded(own + chip.bits), rounded(own), checks.damaged, join(why, "; ")};
}

/// Those with something for them, best first.
std::vector<Ranked> ranked(const Image& image, const std::vector<Layout>& layouts) {
  const Evidence chip = evidence_of_chip(image);
  std::vector<Ranked> all;
  for (const Layout& layout : layouts)
    if (layout.size == image.size()) all.push_back(judge(layout, image, chip));
  std::erase_if(all, [](const Ranked& one) { return one.bits <= 0; });
  std::stable_sort(all.begin(), all.end(),
                   [](const Ranked& a, const Ranked& b) { return a.bits > b.bits; });
  return all;
}

bool same_checks(const Layout& a, const Layout& b) {
  return std::equal(a.checks.begin(), a.checks.end(), b.checks.begin(), b.checks.end(),
                    [](const Check& one, const Check& other) { return one.id == other.id; });
}

bool is_led_by(const Ranked& best, const Ranked& one) {
  // A layout without checks claims nothing that could tie with one.
  if (one.layout->checks.empty() != best.layout->checks.empty()) return true;
  const double lead = same_checks(*one.layout, *best.layout) ? clear_lead_by_fields : clear_lead;
  return best.bits - one.bits >= lead;
}

bool claims_less(const Ranked& a, const Ranked& b) {
  const auto claims = [](const Ranked& one) {
    return std::tuple(one.damaged, one.layout->checks.size(), one.layout->fields.size());
  };
  return claims(a) < claims(b);
}

/// Those that the best does not clearly lead move to the front, the one that claims least first,
/// and get the same score. Returns how many they are.
std::size_t gather_tied(std::vector<Ranked>& all) {
  if (all.empty()) return 0;
  const Ranked best = all.front();
  const auto end = std::stable_partition(all.begin(), all.end(),
                                         [&](const Ranked& one) { return !is_led_by(best, one); });
  std::stable_sort(all.begin(), end, claims_less);
  for (auto one = all.begin(); one != end; ++one) one->bits = best.bits;
  return static_cast<std::size_t>(end - all.begin());
}

/// Whether the first may be taken whichever of the tied ones is right.
bool is_safe(const std::vector<Ranked>& all, std::size_t tied, const Image& image) {
  if (tied == 0) return false;
  const Ranked& first = all.front();
  if (first.own_bits < enough_bits || first.bits < enough_with_clock) return false;
  if (first.layout->checks.empty()) return false;
  return std::all_of(
      all.begin() + 1, all.begin() + static_cast<std::ptrdiff_t>(tied), [&](const Ranked& one) {
        return one.damaged == first.damaged && can_stand_in(*first.layout, *one.layout, image);
      });
}

/// The only layout of a size needs no evidence; null when there are none or several.
const Layout* only_one_of_size(const std::vector<Layout>& layouts, std::size_t size) {
  const Layout* only = nullptr;
  for (const Layout& layout : layouts) {
    if (layout.size != size) continue;
    if (only != nullptr) return nullptr;
    only = &layout;
  }
  return only;
}

void tell_tie(const std::vector<Ranked>& all, std::size_t tied, const Image& image,
              Identification& identification) {
  std::vector<const Layout*> equals;
  for (std::size_t i = 0; i < tied; ++i) equals.push_back(all[i].layout);
  for (const Layout* layout : equals) identification.tied.push_back(layout->id);
  identification.settle = what_settles(equals, image);
}

Identification identify_as_read(const Image& image, const std::vector<Layout>& layouts) {
  std::vector<Ranked> all = ranked(image, layouts);
  const std::size_t tied = gather_tied(all);
  Identification identification;
  if (const Layout* only = only_one_of_size(layouts, image.size()))
    identification.clear = only->id;
  else if (is_safe(all, tied, image))
    identification.clear = all.front().layout->id;
  if (tied > 1) tell_tie(all, tied, image, identification);
  for (Ranked& one : all)
    identification.candidates.push_back({one.layout->id, one.bits, std::move(one.why)});
  return identification;
}

bool any_of_size(const std::vector<Layout>& layouts, std::size_t size) {
  return std::any_of(layouts.begin(), layouts.end(),
                     [=](const Layout& layout) { return layout.size == size; });
}

}  // namespace

Identification identify(const Image& image, const std::vector<Layout>& layouts) {
  if (!halves_mirror(image) || !any_of_size(layouts, Image::small_size))
    return identify_as_read(image, layouts);
  Identification identification = identify_as_read(lower_half(image), layouts);
  identification.mirrored = true;
  for (Candidate& candidate : identification.candidates)
    candidate.why = "both halves are the same, so a 64-byte part was read as 128; " + candidate.why;
  return identification;
}

}  // namespace rtcmend
