#include "discover/plants.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "discover/solve.h"
#include "support/sanitized.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

// Dumps that decide a check when nothing about it is known.
std::size_t dumps_that_decide(const Plant& plant) {
  return width(plant.check) == 16 ? 4 : 6;
}

// Polynomials that share a large factor agree about some sets of dumps; they come as one model.
bool speaks_of(const Model& model, const Plant& plant, Dice& dice) {
  return is_the_plant(model.check, plant, dice) ||
         std::ranges::any_of(model.siblings, [&](const Check& sibling) {
           return is_the_plant(sibling, plant, dice);
         });
}

bool listed(const std::vector<Model>& models, const Plant& plant, Dice& dice) {
  return std::ranges::any_of(models,
                             [&](const Model& model) { return speaks_of(model, plant, dice); });
}

void check_found_first(const Plant& plant, Dice& dice) {
  const auto solution = solve(images_with(plant, dice, dumps_that_decide(plant)), {});
  REQUIRE_FALSE(solution.models.empty());
  CHECK(speaks_of(solution.models[0], plant, dice));
}

void check_listed_with_one_dump_less(const Plant& plant, Dice& dice) {
  const auto solution = solve(images_with(plant, dice, dumps_that_decide(plant) - 1), {});
  CHECK(listed(solution.models, plant, dice));
}

void check_listed_with_two_dumps(const Plant& plant, Dice& dice) {
  Question question;
  question.at = plant.check.stored_at;
  question.over = plant.check.over[0].range;
  const auto solution = solve(images_with(plant, dice, 2), question);
  CHECK(listed(solution.models, plant, dice));
}

void check_plants(std::uint32_t first, std::uint32_t count) {
  for (std::uint32_t start = first; start < first + count; ++start) {
    Dice dice(start);
    const Plant plant = random_plant(dice, start % 4 == 0 ? 128 : 64);
    INFO("plant " << start << ": " << describe(plant.check) << " over "
                  << to_text(plant.check.over[0].range) << " at " << int{plant.check.stored_at});
    check_found_first(plant, dice);
    check_listed_with_one_dump_less(plant, dice);
    check_listed_with_two_dumps(plant, dice);
  }
}

// Every kind, twice as often as in check_plants, but with known place: fast.
void check_plants_at_known_places(std::uint32_t first, std::uint32_t count) {
  for (std::uint32_t start = first; start < first + count; ++start) {
    Dice dice(start);
    const Plant plant = random_plant(dice, 64);
    INFO("plant " << start << ": " << describe(plant.check));
    check_listed_with_two_dumps(plant, dice);
  }
}

}  // namespace

TEST_CASE("planted checks are found first when the dumps decide, and listed with one dump less",
          "[long][count]") {
  check_plants(1, is_sanitized ? 4 : 8);
}

TEST_CASE("planted checks are listed with two dumps when place and range are known",
          "[long][count]") {
  check_plants_at_known_places(5000, 60);
}

// Whose two dumps happen to have like check bytes (409, 787), or to agree with a 16-bit sum of
// which the planted one would be the low byte (584).
TEST_CASE("planted checks are listed beside the luck of two dumps", "[long][count]") {
  check_plants(409, 1);
  check_plants(584, 1);
  check_plants(787, 1);
}

// Some twenty minutes, so only when asked for: tests_discover "[whole]".
TEST_CASE("a thousand planted checks are found first and listed", "[.][whole]") {
  check_plants(1, 1000);
}

TEST_CASE("random dumps without a check give no model that looks decided", "[long][count]") {
  for (std::uint32_t start = 1; start <= 8; ++start) {
    Dice dice(700 + start);
    const auto dumps = random_dumps(dice, 3 + start % 4, start % 2 == 0 ? 32 : 64);
    const auto solution = solve(gather_evidence(dumps, {}), {});
    for (const Model& model : solution.models) CHECK(model.chance >= 0.01);
    CHECK_FALSE(solution.decided());
  }
}
