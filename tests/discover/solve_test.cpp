#include "discover/solve.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "base/error.h"
#include "discover/plants.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

Plant plant_of(const Rule& rule, const Range& over, Address at) {
  Plant plant{Image::large_size, {}};
  plant.check.rule = rule;
  plant.check.over = {{over, std::nullopt}};
  plant.check.stored_at = at;
  return plant;
}

const Space& space_of(const Solution& solution, unsigned width) {
  for (const Space& space : solution.spaces)
    if (space.width == width) return space;
  return solution.spaces.front();
}

}  // namespace

// 32,768 polynomials, four reflections, 8,256 ranges and both orders at some 84 places.
TEST_CASE("the CRC-16 space of 128 bytes holds about 10^11 models, and four dumps decide") {
  Dice dice(1);
  const Solution solution = solve(gather_evidence(random_dumps(dice, 2, 128), {}), {});
  const Space& space = space_of(solution, 16);
  CHECK(space.models > 0.9e11);
  CHECK(space.models < 2.5e11);
  CHECK(space.decide == 4);
  CHECK(space.more_dumps == 2);
  CHECK(space_of(solution, 8).decide == 6);
}

TEST_CASE("two dumps list nothing and ask for more") {
  Dice dice(2);
  const Solution solution = solve(gather_evidence(random_dumps(dice, 2, 64), {}), {});
  CHECK(solution.models.empty());
  CHECK_FALSE(solution.decided());
  CHECK_FALSE(space_of(solution, 16).listed);
  CHECK_FALSE(solution.next.why.empty());
}

TEST_CASE("a known kind shrinks the space, and fewer dumps decide") {
  Dice dice(3);
  Question question;
  question.crcs = question.xors = question.balances = false;
  question.width = 16;
  const Plant plant = plant_of(SumRule{}, {0x10, 0x2D}, 0x2E);
  const Solution solution = solve(images_with(plant, dice, 3), question);
  CHECK(space_of(solution, 16).decide == 3);
  REQUIRE_FALSE(solution.models.empty());
  CHECK(solution.decided());
  CHECK(solution.models[0].check.id == "sum-10-2d");
  CHECK(solution.models[0].check.stored_at == 0x2E);
}

TEST_CASE("a negated sum, a complemented one and a balance are one family", "[long][count]") {
  Dice dice(4);
  const Plant plant = plant_of(BalanceRule{0xAA}, {0x15, 0x3F}, 0x14);
  const Solution solution = solve(images_with(plant, dice, 6), {});
  REQUIRE(solution.decided());
  const Model& model = solution.models[0];
  REQUIRE(model.wordings.size() == 3);
  CHECK(std::get<BalanceRule>(model.wordings[0]).target == 0xAA);
  CHECK(std::get<SumRule>(model.wordings[1]).sign == Sign::negated);
  CHECK(std::get<SumRule>(model.wordings[1]).start == 0x56);
  CHECK(std::get<SumRule>(model.wordings[2]).sign == Sign::complemented);
  CHECK(std::get<SumRule>(model.wordings[2]).start == 0x55);
}

TEST_CASE("a customary start value is preferred to a final xor that does the same",
          "[long][count]") {
  Dice dice(5);
  const CrcModel wanted{16, 0x8005, 0xFFFF, true, true, 0x0000};  // CRC-16/MODBUS
  const Plant plant = plant_of(CrcRule{wanted}, {0x10, 0x3D}, 0x40);
  const Solution solution = solve(images_with(plant, dice, 4), {});
  REQUIRE(solution.decided());
  CHECK(std::get<CrcRule>(solution.models[0].check.rule).model == wanted);
}

TEST_CASE("an xor whose stored byte ends the row is the same seen from the other end",
          "[long][count]") {
  Dice dice(6);
  const Plant plant = plant_of(XorRule{0}, {0x20, 0x2E}, 0x2F);
  const Solution solution = solve(images_with(plant, dice, 6), {});
  REQUIRE(solution.decided());
  CHECK(solution.models[0].check.stored_at == 0x2F);
  REQUIRE(solution.models[0].twins.size() == 1);
  CHECK(solution.models[0].twins[0].stored_at == 0x20);
}

TEST_CASE("a hole is not covered") {
  Dice dice(7);
  Plant plant = plant_of(SumRule{}, {0x10, 0x1F}, 0x2E);
  plant.check.over = {{{0x10, 0x17}, std::nullopt}, {{0x1A, 0x1F}, std::nullopt}};
  std::vector<Image> images;
  for (const DumpSet::Bytes& bytes : random_dumps(dice, 4, 64)) {
    Image image(bytes);
    seal_one(plant.check, image);
    images.push_back(image);
  }
  Question question;
  question.holes = {0x18, 0x19};
  const Solution solution = solve(images, question);
  REQUIRE(solution.decided());
  REQUIRE(solution.models[0].check.over.size() == 2);
  CHECK(solution.models[0].check.over[0].range == Range{0x10, 0x17});
  CHECK(solution.models[0].check.over[1].range == Range{0x1A, 0x1F});
}

TEST_CASE("bytes that one dump lacks are neither covered nor stored in", "[long]") {
  Dice dice(8);
  const Plant plant = plant_of(SumRule{}, {0x10, 0x2D}, 0x2E);
  auto images = images_with(plant, dice, 4);
  for (Address at = 0; at < 0x0E; ++at) images[2].forget(at);
  const Solution solution = solve(images, {});
  REQUIRE(solution.decided());
  CHECK(solution.models[0].check.id == "sum-10-2d");
}

TEST_CASE("dumps that are all the same are refused, and repeats are counted") {
  Dice dice(9);
  const Plant plant = plant_of(SumRule{}, {0x10, 0x2D}, 0x2E);
  auto images = images_with(plant, dice, 1);
  images.push_back(images[0]);
  CHECK_THROWS_AS(solve(images, {}), Error);
  images.push_back(images_with(plant, dice, 1)[0]);
  CHECK(solve(images, {}).repeats == 1);
}

TEST_CASE("dumps of different sizes and unknown places are refused") {
  Dice dice(10);
  const std::vector<Image> mixed = {Image(random_dumps(dice, 1, 64)[0]),
                                    Image(random_dumps(dice, 1, 128)[0])};
  CHECK_THROWS_AS(solve(mixed, {}), Error);
  const std::vector<Image> small = {Image(random_dumps(dice, 1, 64)[0]),
                                    Image(random_dumps(dice, 1, 64)[0])};
  Question question;
  question.at = 0x40;
  CHECK_THROWS_AS(solve(small, question), Error);
}

// One pair of dumps in 256 has the same 8-bit check.
TEST_CASE("two dumps whose check bytes are alike still list it where the place is known") {
  Image one(Image::small_size), other(Image::small_size);
  for (unsigned at = 0; at < Image::small_size; ++at) {
    one.set(static_cast<Address>(at), 0x11);
    other.set(static_cast<Address>(at), 0x11);
  }
  // 01h + 02h + 11h + 11h = 02h + 01h + 11h + 11h = 25h.
  one.set(0x10, 0x01), one.set(0x11, 0x02), one.set(0x14, 0x25);
  other.set(0x10, 0x02), other.set(0x11, 0x01), other.set(0x14, 0x25);
  Question question;
  question.at = Address{0x14};
  question.over = Range{0x10, 0x13};
  const Solution solution = solve(std::vector<Image>{one, other}, question);
  CHECK(std::ranges::any_of(solution.models, [](const Model& model) {
    return std::ranges::any_of(model.wordings, [](const Rule& rule) {
      const auto* sum = std::get_if<SumRule>(&rule);
      return sum && sum->width == 8 && sum->start == 0 && sum->sign == Sign::plain;
    });
  }));

  question.at.reset();  // a byte that never changes is a setting, as far as anybody knows
  for (const Model& model : solve(std::vector<Image>{one, other}, question).models)
    CHECK(model.check.stored_at != 0x14);
}

TEST_CASE("the next change is asked for where it splits the family") {
  // Only 12h and 2Eh-2Fh ever change: where the sum begins and ends stays open.
  std::vector<Image> images;
  for (const int value : {0x01, 0xFF, 0x80, 0x55}) {
    Image image(std::vector<std::uint8_t>(64, 0x11));
    image.set(0x12, static_cast<std::uint8_t>(value));
    Check check;
    check.over = {{{0x10, 0x2D}, std::nullopt}};
    check.stored_at = 0x2E;
    seal_one(check, image);
    images.push_back(image);
  }
  const Solution solution = solve(images, {});
  REQUIRE_FALSE(solution.models.empty());
  REQUIRE_FALSE(solution.next.bytes.empty());
  for (const Address at : solution.next.bytes) CHECK((at < 0x2E || at > 0x2F));
}

TEST_CASE("a solution is decided when its first model is no luck and has no rival") {
  const auto model = [](Address at, double chance) {
    Model one;
    one.check.stored_at = at;
    one.check.rule = XorRule{};
    one.chance = chance;
    return one;
  };
  Solution solution;
  CHECK_FALSE(solution.decided());
  solution.models = {model(0x2E, 1e-6)};
  CHECK(solution.decided());
  solution.models.push_back(model(0x2F, 1e-6));  // a check of its own elsewhere
  CHECK(solution.decided());
  solution.models.push_back(model(0x2E, 0.9));  // luck
  CHECK(solution.decided());
  solution.models.push_back(model(0x2E, 1e-5));
  CHECK_FALSE(solution.decided());
  solution.models = {model(0x2E, 0.9)};
  CHECK_FALSE(solution.decided());
  solution.models = {model(0x2E, 1e-6)};
  solution.models[0].siblings.push_back(solution.models[0].check);
  CHECK_FALSE(solution.decided());
}
