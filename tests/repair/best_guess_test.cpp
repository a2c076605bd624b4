#include "repair/best_guess.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "images/image_chance.h"

using namespace rtcmend;

TEST_CASE("every random image is one that the account of how they are drawn allows") {
  Dice dice(181);
  for (const Layout& layout : all_layouts())
    for (int round = 0; round < 8; ++round) {
      INFO(layout.id);
      CHECK(std::isfinite(image_chance(random_image(layout, dice), layout)));
    }
}

TEST_CASE("an image that is never drawn has no chance") {
  Dice dice(182);
  for (const Layout& layout : all_layouts()) {
    if (layout.id != "at") continue;
    Image image = random_image(layout, dice);
    image.set(0x10, 0xF0);  // no type of floppy drive: RBIL61 C0007
    for (const std::size_t index : layout.sealing) seal_one(layout.checks[index], image);
    CHECK(std::isinf(image_chance(image, layout)));
  }
}

TEST_CASE("of guesses that are equally good, each is as likely to be taken") {
  const Image a(std::vector<std::uint8_t>(64, 1)), b(std::vector<std::uint8_t>(64, 2)),
      c(std::vector<std::uint8_t>(64, 3));
  const std::vector<Guess> guesses{{a, -3}, {b, -3}, {c, -5}};
  CHECK(chance_of_first(guesses, b) == Approx(0.5));
  CHECK(chance_of_first(guesses, c) == 0);
  CHECK(chance_of_first({}, c) == 0);
}

TEST_CASE("the right image is among the best guesses of every plant that can be mended") {
  Dice dice(183);
  for (const Layout& layout : all_layouts()) {
    if (layout.id != "at") continue;
    for (int round = 0; round < 3; ++round) {
      const Plant plant = plant_of(Arrival::read_once, "one bit", layout, dice);
      const auto guesses = best_guesses(plant, layout);
      CHECK(std::any_of(guesses.begin(), guesses.end(),
                        [&](const Guess& guess) { return guess.right == plant.right; }));
    }
  }
}
