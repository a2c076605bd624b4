#include "identify/identify.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

#include "base/text.h"
#include "identify/alike.h"
#include "identify/evidence.h"
#include "judge/misreads.h"
#include "judge/rearrange.h"

namespace rtcmend {

namespace {

// A layout is taken as known when chance would do as well once in 512 times, the clock does
// not speak against it more than that allows, and no other comes within a factor of 64. Variants
// that differ in fields alone are many, so that chance makes one of them look good more often:
// there the factor is 512.
constexpr double enough_bits = 9, enough_with_clock = 12, clear_lead = 6, clear_lead_by_fields = 9;

/// Tenths of a bit are more than the weights deserve.
double rounded(double bits) {
  return std::round(bits * 10) / 10;
}

/// What every piece of evidence says, for people.
std::string in_words(const Layout& layout, const Image& image, const Evidence& chip) {
  std::vector<std::string> why = evidence_of_checks(layout, image).why;
  for (const Evidence& more : {evidence_of_fields(layout, image), chip})
    why.insert(why.end(), more.why.begin(), more.why.end());
  return join(why, "; ");
}

std::vector<Score> scores_of(const Image& image, const std::vector<Layout>& layouts,
                             const Evidence& chip) {
  std::vector<Score> scores;
  for (const Layout& layout : layouts) {
    if (layout.size != image.size()) continue;
    std::vector<CheckResult> results;
    for (const Check& check : layout.checks) results.push_back(evaluate(check, image));
    double field_bits = 0;
    for (const Field& field : layout.fields) field_bits += bits_of_field(field, layout, image);
    scores.push_back(score(layout, weigh_checks(results, image), field_bits, chip.bits));
  }
  return scores;
}

bool same_checks(const Layout& a, const Layout& b) {
  return std::equal(a.checks.begin(), a.checks.end(), b.checks.begin(), b.checks.end(),
                    [](const Check& one, const Check& other) { return one.id == other.id; });
}

bool is_led_by(const Score& best, const Score& one) {
  // A layout without checks claims nothing that could tie with one.
  if (one.layout->checks.empty() != best.layout->checks.empty()) return true;
  const double lead = same_checks(*one.layout, *best.layout) ? clear_lead_by_fields : clear_lead;
  return best.bits - one.bits >= lead;
}

bool claims_less(const Score& a, const Score& b) {
  const auto claims = [](const Score& one) {
    return std::tuple(one.damaged, one.layout->checks.size(), one.layout->fields.size());
  };
  return claims(a) < claims(b);
}

/// Those that the best does not clearly lead move to the front, the one that claims least first,
/// and get the same score. Returns how many they are.
std::size_t gather_tied(std::vector<Score>& all) {
  if (all.empty()) return 0;
  const Score best = all.front();
  const auto end = std::stable_partition(all.begin(), all.end(),
                                         [&](const Score& one) { return !is_led_by(best, one); });
  std::stable_sort(all.begin(), end, claims_less);
  for (auto one = all.begin(); one != end; ++one) one->bits = best.bits;
  return static_cast<std::size_t>(end - all.begin());
}

/// Whether the first may be taken whichever of the tied ones is right.
bool is_safe(const Ranking& ranking, const StandIn& can_stand_in) {
  const auto& [all, tied] = ranking;
  if (tied == 0) return false;
  const Score& first = all.front();
  if (first.own_bits < enough_bits || first.bits < enough_with_clock) return false;
  if (first.layout->checks.empty()) return false;
  return std::all_of(
      all.begin() + 1, all.begin() + static_cast<std::ptrdiff_t>(tied), [&](const Score& one) {
        return one.damaged == first.damaged && can_stand_in(*first.layout, *one.layout);
      });
}

void tell_tie(const Ranking& ranking, const Image& image, Identification& identification) {
  std::vector<const Layout*> equals;
  for (std::size_t i = 0; i < ranking.tied; ++i) equals.push_back(ranking.scores[i].layout);
  for (const Layout* layout : equals) identification.tied.push_back(layout->id);
  identification.settle = what_settles(equals, image);
}

const Layout* clear_one(const Ranking& ranking, const Image& image,
                        const std::vector<Layout>& layouts) {
  if (const Layout* only = only_one_of_size(layouts, image.size())) return only;
  return clear_one(ranking, [&](const Layout& plain, const Layout& other) {
    return can_stand_in(plain, other, image);
  });
}

Identification identify_as_read(const Image& image, const std::vector<Layout>& layouts) {
  const Evidence chip = evidence_of_chip(image);
  const Ranking ranking = rank(scores_of(image, layouts, chip));
  Identification identification;
  if (const Layout* clear = clear_one(ranking, image, layouts)) identification.clear = clear->id;
  if (ranking.tied > 1) tell_tie(ranking, image, identification);
  for (const Score& one : ranking.scores)
    identification.candidates.push_back(
        {one.layout->id, one.bits, in_words(*one.layout, image, chip)});
  return identification;
}

bool any_of_size(const std::vector<Layout>& layouts, std::size_t size) {
  return std::any_of(layouts.begin(), layouts.end(),
                     [=](const Layout& layout) { return layout.size == size; });
}

/// A 64-byte part read as 128.
bool is_mirrored(const Image& image, const std::vector<Layout>& layouts) {
  return halves_mirror(image) && any_of_size(layouts, Image::small_size);
}

}  // namespace

Score score(const Layout& layout, const CheckWeight& checks, double field_bits, double chip_bits) {
  const double own = checks.bits + field_bits;
  return {&layout, rounded(own + chip_bits), rounded(own), checks.damaged};
}

Ranking rank(std::vector<Score> scores) {
  std::erase_if(scores, [](const Score& one) { return one.bits <= 0; });
  std::stable_sort(scores.begin(), scores.end(),
                   [](const Score& a, const Score& b) { return a.bits > b.bits; });
  const std::size_t tied = gather_tied(scores);
  return {std::move(scores), tied};
}

const Layout* clear_one(const Ranking& ranking, const StandIn& can_stand_in) {
  return is_safe(ranking, can_stand_in) ? ranking.scores.front().layout : nullptr;
}

const Layout* only_one_of_size(const std::vector<Layout>& layouts, std::size_t size) {
  const Layout* only = nullptr;
  for (const Layout& layout : layouts) {
    if (layout.size != size) continue;
    if (only != nullptr) return nullptr;
    only = &layout;
  }
  return only;
}

Identification identify(const Image& image, const std::vector<Layout>& layouts) {
  if (!is_mirrored(image, layouts)) return identify_as_read(image, layouts);
  Identification identification = identify_as_read(lower_half(image), layouts);
  identification.mirrored = true;
  for (Candidate& candidate : identification.candidates)
    candidate.why = "both halves are the same, so a 64-byte part was read as 128; " + candidate.why;
  return identification;
}

const Layout* recognise(const Image& image, const std::vector<Layout>& layouts) {
  if (is_mirrored(image, layouts)) return nullptr;
  return clear_one(rank(scores_of(image, layouts, evidence_of_chip(image))), image, layouts);
}

}  // namespace rtcmend
