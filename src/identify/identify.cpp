#include "identify/identify.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <functional>
#include <tuple>
#include <utility>

#include "base/text.h"
#include "identify/alike.h"
#include "judge/misreads.h"

namespace rtcmend {

namespace {

// A layout is taken as known when chance would do as well once in 512 times, the clock does
// not speak against it more than that allows, and no other comes within a factor of 64. Layouts
// that differ in fields alone may be many, so that chance makes one of them look good more often:
// there the factor is 512.
constexpr double enough_bits = 9, enough_with_clock = 12, clear_lead = 6, clear_lead_by_fields = 9;
// Under a check that holds, values that look odd lower what it says; they cannot overturn it.
constexpr double most_against_proof = -3;

/// Tenths of a bit are more than the weights deserve.
double rounded(double bits) {
  return std::round(bits * 10) / 10;
}

bool same_checks(const Layout& a, const Layout& b) {
  return std::equal(a.checks.begin(), a.checks.end(), b.checks.begin(), b.checks.end(),
                    [](const Check& one, const Check& other) { return one.id == other.id; });
}

bool is_led_by(const Score& best, const Score& one) {
  const Layout &leader = *best.piece->layout, &other = *one.piece->layout;
  // A layout without checks claims nothing that could tie with one.
  if (other.checks.empty() != leader.checks.empty()) return true;
  const double lead = same_checks(other, leader) ? clear_lead_by_fields : clear_lead;
  return best.bits - one.bits >= lead;
}

bool claims_less(const Score& a, const Score& b) {
  const auto claims = [](const Score& one) {
    const Layout& layout = *one.piece->layout;
    return std::tuple(one.damaged, layout.checks.size(), layout.fields.size());
  };
  return claims(a) < claims(b);
}

/// Those that the best does not clearly lead move to the front, the one that claims least first,
/// and get the same score. Returns how many they are.
std::size_t gather_tied(std::vector<Score>& all) {
  if (all.empty()) return 0;
  const Score best = all.front();
  const auto is_led = [&](const Score& one) { return is_led_by(best, one); };
  if (std::all_of(all.begin() + 1, all.end(), is_led)) return 1;
  const auto end = std::stable_partition(all.begin(), all.end(), std::not_fn(is_led));
  std::stable_sort(all.begin(), end, claims_less);
  for (auto one = all.begin(); one != end; ++one) one->bits = best.bits;
  return static_cast<std::size_t>(end - all.begin());
}

/// A check's width, at most.
constexpr double most_support = 16;

/// What a class gets from its traits when its own check does not hold: another check of the same
/// firmware says as well which map this is.
double support_of(const Piece& whole, const Pieces& pieces, const EvidenceAtHand& evidence) {
  std::size_t among = 0;
  bool one_holds = false;
  const auto holds = [](const CheckResult& result) { return result.counts && result.ok(); };
  for (const PieceFamily& family : pieces.families_of(whole.of)) {
    among += family.all_checks;
    if (family.with_checks == 0 || one_holds) continue;
    one_holds = std::ranges::any_of(family.members, [&](const Piece* piece) {
      return std::ranges::any_of(evidence.checks(*piece), holds);
    });
  }
  return one_holds ? most_support - std::log2(static_cast<double>(among)) : 0;
}

/// Scores the layouts, those first whose checks prove them.
class Scoring {
 public:
  Scoring(const Pieces& pieces, EvidenceAtHand& evidence) : pieces_(pieces), evidence_(evidence) {}

  /// All of them; or without those that cannot come near the best, which is quicker.
  std::vector<Score> scores(bool all) {
    std::vector<Score> scores;
    scores.reserve(pieces_.whole().size());
    double best = 0;
    for (const bool proven : {true, false})
      for (const Piece* piece : pieces_.whole()) {
        if (is_proven(*piece) != proven) continue;
        const bool may_be_left_out = !all && !proven && best > 0;
        if (may_be_left_out && !can_reach(best - clear_lead_by_fields, *piece)) continue;
        scores.push_back(scored(*piece));
        best = std::max(best, scores.back().bits);
      }
    return scores;
  }

 private:
  bool is_proven(const Piece& piece) const {
    const auto results = evidence_.checks(piece);
    return !results.empty() &&
           std::ranges::all_of(results, [](const CheckResult& result) { return result.ok(); });
  }

  double support(const Piece& piece) {
    if (piece.of == nullptr || piece.checks().empty()) return 0;
    if (piece.of != supported_) support_ = support_of(piece, pieces_, evidence_);
    supported_ = piece.of;
    return support_;
  }

  /// Whether a piece may score so much, without a search for what could explain that a check fails;
  /// looked at no closer than it takes.
  bool can_reach(double enough, const Piece& piece) {
    enough -= most_bits_of_checks(evidence_.checks(piece)) + evidence_.chip_bits();
    if (piece.most_field_bits + most_support < enough) return false;
    const double fields = std::max(evidence_.field_bits(piece), most_against_proof);
    return fields + most_support >= enough && fields + support(piece) >= enough;
  }

  Score scored(const Piece& piece) {
    const CheckWeight checks = weigh_checks(evidence_.checks(piece), evidence_.image());
    const double more = checks.proven ? 0 : support(piece);
    return score(piece, checks, evidence_.field_bits(piece) + more, evidence_.chip_bits());
  }

  const Pieces& pieces_;
  EvidenceAtHand& evidence_;
  const LayoutClass* supported_ = nullptr;  ///< the class that was asked for last,
  double support_ = 0;                      ///< and what it gets
};

/// Whether the first may be taken whichever of the tied ones is right.
bool is_safe(const Ranking& ranking, EvidenceAtHand& evidence) {
  const auto& [all, tied] = ranking;
  if (tied == 0) return false;
  const Score& first = all.front();
  if (first.own_bits < enough_bits || first.bits < enough_with_clock) return false;
  if (first.piece->layout->checks.empty()) return false;
  return std::all_of(
      all.begin() + 1, all.begin() + static_cast<std::ptrdiff_t>(tied), [&](const Score& one) {
        return one.damaged == first.damaged && evidence.alike(*first.piece, *one.piece);
      });
}

std::vector<CheckResult> results_of(std::span<const Check* const> checks, const Image& image) {
  std::vector<CheckResult> results;
  results.reserve(checks.size());
  for (const Check* check : checks) results.push_back(evaluate(*check, image));
  return results;
}

/// Evidence worked out from the image alone.
class PlainEvidence : public EvidenceAtHand {
 public:
  PlainEvidence(const Pieces& pieces, const Image& image)
      : PlainEvidence(results_of(pieces.all_checks(), image), image) {}

  double field_bits(const Piece& piece) override {
    double bits = 0;
    for (const Field& field : piece.fields()) bits += bits_of_field(field, *piece.layout, image());
    return bits;
  }
  bool alike(const Piece& plain, const Piece& other) override {
    return can_stand_in(*plain.layout, *other.layout, image());
  }

 private:
  /// Moving the results leaves them where the base looks.
  PlainEvidence(std::vector<CheckResult> results, const Image& image)
      : EvidenceAtHand(image, results, evidence_of_chip(image).bits),
        results_(std::move(results)) {}

  std::vector<CheckResult> results_;
};

/// What every piece of evidence for a class says, for people.
std::string in_words(const Layout& layout, const Image& image) {
  std::vector<std::string> why = evidence_of_checks(layout, image).why;
  for (const Evidence& more : {evidence_of_fields(layout, image), evidence_of_chip(image)})
    why.insert(why.end(), more.why.begin(), more.why.end());
  return join(why, "; ");
}

std::vector<std::string> ids_of(const std::vector<const Piece*>& pieces) {
  std::vector<std::string> ids;
  for (const Piece* piece : pieces) ids.push_back(piece->trait->id);
  return ids;
}

/// "usually met with memory-34 (8 of 8 images)", of those that were found as well.
std::string usual_company(const Piece& piece, const Identified& found) {
  for (const MetWith& tie : piece.trait->met_with)
    for (const FamilyAnswer& other : found.families)
      if (other.taken != nullptr && other.taken->trait->id == tie.trait)
        return fmt::format("usually met with {} ({})", tie.trait, tie.standing);
  return {};
}

std::string why_taken(const FamilyAnswer& answer, const Image& image, const Identified& found) {
  std::vector<std::string> why;
  const Piece& taken = *answer.taken;
  for (const Check& check : taken.checks()) {
    const CheckResult result = evaluate(check, image);
    why.push_back(check.id + (result.ok() ? " holds" : " fails by what one slip would do"));
  }
  if (answer.is_presumed) why.emplace_back("nothing speaks for another");
  if (taken.checks().empty() && !answer.is_presumed) why.emplace_back("its fields make sense");
  for (const Piece* other : answer.tied)
    if (other != &taken)
      why.push_back(fmt::format("{} says the same here{}", other->trait->id,
                                because_of(*taken.layout, *other->layout, image)));
  if (std::string company = usual_company(taken, found); !company.empty())
    why.push_back(std::move(company));
  return join(why, "; ");
}

std::string why_open(const FamilyAnswer& answer, const Identified& found) {
  std::vector<std::string> why{"nothing in these bytes tells"};
  for (const Piece* one : answer.tied)
    if (std::string company = usual_company(*one, found); !company.empty())
      why.push_back(one->trait->id + " is " + company);
  return join(why, "; ");
}

FamilyWord in_words(const FamilyAnswer& answer, const Image& image, const Identified& found) {
  FamilyWord word{
      std::string(answer.family->name), {}, rounded(answer.bits), {}, {}, answer.is_open()};
  if (answer.tied.size() > 1 || word.open) word.tied = ids_of(answer.tied);
  if (answer.taken != nullptr) {
    word.trait = answer.taken->trait->id;
    word.why = why_taken(answer, image, found);
  } else {
    word.why = word.open ? why_open(answer, found) : "none of them fits";
    for (const Piece* near : answer.one_slip)
      word.why += fmt::format("; {} fails by what one slip would do", near->trait->id);
  }
  return word;
}

bool is_version_of(const Piece& one, const Piece& other) {
  return one.of != nullptr && one.of == other.of;
}

/// The first of each class, best first: its other versions are told as a family.
std::vector<const Score*> one_of_each_class(const Ranking& ranking) {
  std::vector<const Score*> first;
  for (const Score& score : ranking.scores)
    if (std::ranges::none_of(
            first, [&](const Score* known) { return is_version_of(*known->piece, *score.piece); }))
      first.push_back(&score);
  return first;
}

void tell_tie(const Identified& found, const Image& image, Identification& identification) {
  std::vector<const Layout*> equals;
  for (std::size_t i = 0; i < found.ranking.tied; ++i) {
    const Piece& piece = *found.ranking.scores[i].piece;
    if (i == 0 || !is_version_of(piece, *found.ranking.scores.front().piece))
      equals.push_back(piece.layout);
  }
  if (equals.size() < 2) return;
  for (const Layout* layout : equals) identification.tied.push_back(layout->id);
  identification.settle = what_settles(equals, image);
}

/// What a version of a class calls itself in its family: its trait, or the check that stands there
/// without one.
std::string name_in_family(const Piece& version, const Trait& replacing) {
  return version.trait != nullptr ? version.trait->id : replacing.replaces.front();
}

/// The version of the class that leads, as the answer to a family's question; nothing for a class
/// that has one version.
std::optional<FamilyWord> word_of_versions(const Identified& found, const Image& image,
                                           const Pieces& pieces) {
  const Piece& lead = *found.ranking.scores.front().piece;
  const Trait* replacing = nullptr;
  for (const Piece* piece : pieces.whole())
    if (piece->trait != nullptr && is_version_of(*piece, lead)) replacing = piece->trait;
  if (replacing == nullptr) return std::nullopt;
  FamilyWord word{replacing->family,
                  lead.trait != nullptr ? lead.trait->id : "",
                  found.ranking.scores.front().own_bits,
                  {},
                  {},
                  false};
  std::vector<std::string> why{name_in_family(lead, *replacing)};
  for (std::size_t i = 1; i < found.ranking.tied; ++i) {
    const Piece& other = *found.ranking.scores[i].piece;
    if (!is_version_of(other, lead)) continue;
    if (word.tied.empty()) word.tied.push_back(why.front());
    word.tied.push_back(name_in_family(other, *replacing));
    why.push_back(fmt::format("{} {}{}", word.tied.back(),
                              found.clear != nullptr ? "says the same here" : "fits as well",
                              because_of(*lead.layout, *other.layout, image)));
    word.open = found.clear == nullptr;
  }
  word.why = join(why, "; ");
  return word;
}

Identification identify_as_read(const Image& image, std::span<const Layout> own) {
  const Pieces pieces(image.size(), own);
  PlainEvidence evidence(pieces, image);
  const Identified found = find_out(pieces, evidence, OpenTies::told);
  Identification identification;
  if (found.ranking.scores.empty()) return identification;
  tell_tie(found, image, identification);
  for (const Score* one : one_of_each_class(found.ranking))
    identification.candidates.push_back(
        {one->piece->layout->id, one->bits, in_words(*one->piece->layout, image)});
  if (auto versions = word_of_versions(found, image, pieces))
    identification.families.push_back(*std::move(versions));
  for (const FamilyAnswer& answer : found.families)
    identification.families.push_back(in_words(answer, image, found));
  Candidate& first = identification.candidates.front();
  first.layout = layout_of(*found.ranking.scores.front().piece, found.traits()).id;
  if (found.clear != nullptr) identification.clear = first.layout;
  if (!identification.tied.empty()) identification.tied.front() = first.layout;
  return identification;
}

}  // namespace

Score score(const Piece& piece, const CheckWeight& checks, double field_bits, double chip_bits) {
  if (checks.proven) field_bits = std::max(field_bits, most_against_proof);
  const double own = checks.bits + field_bits;
  return {&piece, rounded(own + chip_bits), rounded(own), checks.damaged};
}

Ranking rank(std::vector<Score> scores) {
  std::erase_if(scores, [](const Score& one) { return one.bits <= 0; });
  // They are few, and std::stable_sort() would ask for memory.
  const auto is_better = [](const Score& a, const Score& b) { return a.bits > b.bits; };
  for (auto next = scores.begin(); next != scores.end(); ++next)
    std::rotate(std::upper_bound(scores.begin(), next, *next, is_better), next, next + 1);
  const std::size_t tied = gather_tied(scores);
  return {std::move(scores), tied};
}

const Piece* clear_one(const Ranking& ranking, EvidenceAtHand& evidence) {
  return is_safe(ranking, evidence) ? ranking.scores.front().piece : nullptr;
}

std::vector<const Trait*> Identified::traits() const {
  std::vector<const Trait*> traits;
  for (const FamilyAnswer& answer : families)
    if (answer.taken != nullptr) traits.push_back(answer.taken->trait);
  return traits;
}

Identified find_out(const Pieces& pieces, EvidenceAtHand& evidence, OpenTies open) {
  Identified found;
  found.ranking = rank(Scoring(pieces, evidence).scores(open == OpenTies::told));
  found.clear = clear_one(found.ranking, evidence);
  if (!found.ranking.scores.empty())
    found.families = answer_families(*found.ranking.scores.front().piece, pieces, evidence, open);
  return found;
}

Layout layout_of(const Piece& whole, const std::vector<const Trait*>& traits) {
  if (whole.of == nullptr) return *whole.layout;
  std::vector<const Trait*> all = traits;
  if (whole.trait != nullptr) all.push_back(whole.trait);
  return assemble(*whole.of, all);
}

Identification identify(const Image& image, std::span<const Layout> own) {
  if (!halves_mirror(image)) return identify_as_read(image, own);
  Identification identification = identify_as_read(image.with_size(Image::small_size), own);
  identification.mirrored = true;
  for (Candidate& candidate : identification.candidates)
    candidate.why = "both halves are the same, so a 64-byte part was read as 128; " + candidate.why;
  return identification;
}

std::optional<Layout> recognise(const Image& image, std::span<const Layout> own) {
  if (halves_mirror(image)) return recognise(image.with_size(Image::small_size), own);
  const Pieces pieces(image.size(), own);
  PlainEvidence evidence(pieces, image);
  const Identified found = find_out(pieces, evidence, OpenTies::untold);
  if (found.clear == nullptr) return std::nullopt;
  return layout_of(*found.clear, found.traits());
}

}  // namespace rtcmend
