#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <map>
#include <set>

#include "images/planted_damage.h"
#include "repair/best_guess.h"
#include "repair/suspects.h"

using namespace rtcmend;

// Hidden: run by scripts/figures.sh suspects, which prints the tables of docs/figures.md. They fail
// when a figure falls below what the page promises.

namespace {

constexpr unsigned seed = 20310514;

struct Rate {
  int right = 0, tried = 0;

  void count(bool was_right) {
    right += was_right ? 1 : 0;
    ++tried;
  }
  double percent() const { return tried == 0 ? 100 : 100.0 * right / tried; }
};

std::vector<Suspect> suspects_of(const Plant& plant, const Layout& layout) {
  Provenance provenance;
  const bool typed = plant.arrival == Arrival::typed || plant.arrival == Arrival::typed_with_text;
  provenance.origin = typed ? Origin::hand : Origin::machine;
  provenance.text = plant.text;
  provenance.again = plant.again;
  return suspects(plant.dump, layout, provenance);
}

bool is_right(const Suspect& suspect, const Plant& plant) {
  return !plant.beyond_repair && repaired(plant.dump, suspect) == plant.right;
}

/// What comes of accepting the first suspect for each check, or for all at once.
bool is_first_right(const std::vector<Suspect>& all, const Plant& plant) {
  Image mended = plant.dump;
  std::set<std::vector<std::string>> done;
  for (const Suspect& suspect : all)
    if (done.insert(suspect.mends).second) mended = repaired(mended, suspect);
  return !all.empty() && mended == plant.right;
}

/// A suspect answers for the checks that it mends: whether all their bytes are then what they were.
bool is_right_for_its_checks(const Suspect& suspect, const Plant& plant, const Layout& layout) {
  const Image mended = repaired(plant.dump, suspect);
  const auto mends_one_of = [&](const std::vector<const Check*>& checks) {
    return std::any_of(checks.begin(), checks.end(), [&](const Check* check) {
      return std::count(suspect.mends.begin(), suspect.mends.end(), check->id) > 0;
    });
  };
  for (std::size_t i = Image::ram_start; i < mended.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (mended.at(at) == plant.right.at(at)) continue;
    if (mends_one_of(layout.checks_over(at)) || mends_one_of(layout.checks_at(at))) return false;
  }
  return true;
}

/// Layouts with a check, by what proves them.
std::vector<const Layout*> layouts_under(std::string_view proof) {
  std::vector<const Layout*> chosen;
  for (const Layout& layout : all_layouts()) {
    if (layout.checks.empty()) continue;
    const bool crc = layout.id.starts_with("crc");
    if (proof.empty() || (proof == "crc") == crc) chosen.push_back(&layout);
  }
  return chosen;
}

struct Question {
  std::string_view told;
  Arrival arrival;
  std::string_view kind, proof;
  int plants;
  double must;  ///< percent in the first place
};

/// The same plants each time that a question is asked.
template <typename Take>
void for_each_plant(const Question& question, Take take) {
  Dice dice(seed);
  const auto layouts = layouts_under(question.proof);
  for (int i = 0; i < question.plants; ++i) {
    const Layout& layout = *layouts[roll(dice, static_cast<unsigned>(layouts.size()))];
    take(plant_of(question.arrival, question.kind, layout, dice), layout);
  }
}

}  // namespace

TEST_CASE("figures: the true repair in the first place", "[.suspects]") {
  using enum Arrival;
  const Question questions[] = {
      {"one bit under a CRC", read_once, "one bit", "crc", 2000, 99},
      // 60.5 is what can be had at all: see "the best that anyone could do".
      {"one bit under a sum", read_once, "one bit", "sum", 2000, 58},
      {"one slip with text, CRC", typed_with_text, "look-alike digit", "crc", 1000, 99},
      {"one slip with text, sum", typed_with_text, "look-alike digit", "sum", 1000, 88},
      {"one slip without text, CRC", typed, "look-alike digit", "crc", 1000, 97},
      {"one slip without text, sum", typed, "look-alike digit", "sum", 1000, 74},
      {"two slips with text, CRC", typed_with_text, "two slips", "crc", 1000, 95},
      {"two slips with text, sum", typed_with_text, "two slips", "sum", 1000, 71},
      {"one wavering bit of two dumps", read_twice, "one wavering bit", "", 1000, 99},
      {"three dumps with noise", read_thrice, "noise of 1 in 200", "", 1000, 99},
  };
  for (const Question& question : questions) {
    Rate first, listed;
    for_each_plant(question, [&](const Plant& plant, const Layout& layout) {
      const auto all = suspects_of(plant, layout);
      first.count(is_first_right(all, plant));
      listed.count(is_first_right(all, plant) ||
                   std::any_of(all.begin(), all.end(),
                               [&](const Suspect& one) { return is_right(one, plant); }));
    });
    fmt::print("{:<30} first {:5.1f} %  listed {:5.1f} %  must be {:.0f} %\n", question.told,
               first.percent(), listed.percent(), question.must);
    CHECK(first.percent() >= question.must);
  }
}

// `must` is by how many points the suspects may fall behind.
TEST_CASE("figures: the best that anyone could do", "[.suspects]") {
  using enum Arrival;
  const Question questions[] = {
      {"one bit under a sum", read_once, "one bit", "sum", 400, 2},
      {"one slip with text, sum", typed_with_text, "look-alike digit", "sum", 400, 3},
      {"one slip without text, sum", typed, "look-alike digit", "sum", 400, 3},
      {"two slips with text, sum", typed_with_text, "two slips", "sum", 150, 10},
      {"one bit under a CRC", read_once, "one bit", "crc", 100, 2},
  };
  for (const Question& question : questions) {
    Rate first;
    double best = 0, known = 0;
    for_each_plant(question, [&](const Plant& plant, const Layout& layout) {
      const auto all = suspects_of(plant, layout);
      first.count(is_first_right(all, plant));
      best += chance_of_first(best_guesses(plant, layout), plant.right);
      known += chance_of_first(best_guesses(plant, layout, question.kind), plant.right);
    });
    fmt::print("{:<30} model {:5.1f} %  best {:5.1f} %  if the kind were known {:5.1f} %\n",
               question.told, first.percent(), 100 * best / question.plants,
               100 * known / question.plants);
    CHECK(first.percent() >= 100 * best / question.plants - question.must);
  }
}

TEST_CASE("figures: of what is shown at some odds, as many are right", "[.suspects]") {
  constexpr int plants = 20'000;
  constexpr std::array bounds = {0.0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9};
  struct Band {
    Rate rate;
    double promised = 0;
  };
  std::array<Band, bounds.size()> bands;
  std::map<std::string_view, Band> by_kind;
  Dice dice(seed);
  const auto layouts = layouts_under("");
  for (int i = 0; i < plants; ++i) {
    const Layout& layout = *layouts[roll(dice, static_cast<unsigned>(layouts.size()))];
    const Plant plant = any_plant(layout, dice);
    const auto all = suspects_of(plant, layout);
    for (const Suspect& suspect : all) {
      std::size_t band = bounds.size() - 1;
      while (suspect.odds < bounds[band]) --band;
      const bool right = is_right_for_its_checks(suspect, plant, layout);
      bands[band].rate.count(right);
      bands[band].promised += suspect.odds;
    }
    if (!all.empty()) {
      Band& band = by_kind[plant.kind];
      band.rate.count(is_right_for_its_checks(all.front(), plant, layout));
      band.promised += all.front().odds;
    } else {
      by_kind[plant.kind].rate.count(false);
    }
  }
  for (std::size_t i = 0; i < bounds.size(); ++i) {
    const Rate& rate = bands[i].rate;
    const double said = rate.tried == 0 ? 0 : 100 * bands[i].promised / rate.tried;
    fmt::print("odds from {:3.0f} %: {:>7} shown, {:>6} right  {:5.1f} %  said {:5.1f} %\n",
               100 * bounds[i], rate.tried, rate.right, rate.percent(), said);
    // Within the band, give or take five points.
    const double above = i + 1 < bounds.size() ? bounds[i + 1] : 1.0;
    CHECK(rate.percent() >= 100 * bounds[i] - 5);
    CHECK(rate.percent() <= 100 * above + 5);
  }
  for (const auto& [kind, band] : by_kind)
    fmt::print("{:<18} first {:5.1f} % of {:>5}, said {:5.1f} %\n", kind, band.rate.percent(),
               band.rate.tried, 100 * band.promised / std::max(1, band.rate.tried));
  CHECK(bands.back().rate.percent() >= 90);
}
