// What solve decides about firmwares that nobody documented, and whether it is so:
// scripts/figures.sh discovery prints the table of docs/figures.md.

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <ctime>
#include <sys/resource.h>

#include "discover/constants.h"
#include "discover/plants.h"
#include "discover/solve.h"
#include "discover/stirring.h"
#include "discover/unknown_bench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

constexpr int unseen = 1000;
constexpr std::array levels = {1.0, 0.1, 0.01};

struct Claims {
  int runs = 0, rule = 0, place = 0, range = 0;
  int wrong_rule = 0, wrong_place = 0, wrong_range = 0;  // that fail on an image not seen
  int from_nothing = 0;  // decided and wrong, where there is no check or none of these kinds
  int without = 0;       // runs on firmwares without a check
  std::array<int, levels.size()> lucky{};  // of those, with a model of at most this chance
  double longest = 0;                      // seconds
};

bool holds(const Check& check, const std::vector<Image>& images) {
  return std::ranges::all_of(images, [&](const Image& image) {
    const CheckResult result = evaluate(check, image);
    return result.stored == result.computed;
  });
}

// What "the rule is decided" says: in one of the ranges that are left, at one of the places.
bool rule_holds(const DumpSet& evidence, const Model& model, const std::vector<Image>& images) {
  const auto in = [&](const Check& check) { return holds(check, images); };
  return std::ranges::any_of(model.family,
                             [&](const Match& match) {
                               return std::ranges::any_of(
                                   constants_of(evidence, match), [&](const Rule& rule) {
                                     return in(to_check(evidence, match, rule));
                                   });
                             }) ||
         std::ranges::any_of(model.twins, in);
}

bool place_holds(const DumpSet& evidence, const Model& model, const std::vector<Image>& images) {
  return std::ranges::any_of(model.family, [&](const Match& match) {
    return match.at == model.match.at &&
           holds(to_check(evidence, match, constants_of(evidence, match).front()), images);
  });
}

// Of the processor: what else runs on the machine must not count.
double seconds_since(std::clock_t began) {
  return static_cast<double>(std::clock() - began) / CLOCKS_PER_SEC;
}

// Of this process so far.
long most_memory_mib() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return usage.ru_maxrss / 1024;
}

// A chip that holds next to nothing: every dump has some bytes of the empty one changed.
std::vector<Image> sparse_dumps(Dice& dice, std::size_t size, std::uint8_t empty, std::size_t dumps,
                                std::size_t changed) {
  std::vector<Image> images;
  for (std::size_t i = 0; i < dumps; ++i) {
    images.emplace_back(std::vector<std::uint8_t>(size, empty));
    for (std::size_t k = 0; k < changed; ++k)
      images.back().set(
          static_cast<Address>(Image::ram_start +
                               dice.below(static_cast<std::uint32_t>(size - Image::ram_start))),
          dice.coin() ? dice.byte() : static_cast<std::uint8_t>(~empty));
  }
  return images;
}

// Bytes of an empty chip that all go up together, some by one and some by three.
std::vector<Image> counting_dumps(Dice& dice, std::size_t size, std::uint8_t empty,
                                  std::size_t dumps, std::size_t counters) {
  std::vector<Image> images(dumps, Image(std::vector<std::uint8_t>(size, empty)));
  for (std::size_t i = 0; i < counters; ++i) {
    const auto at = static_cast<Address>(
        Image::ram_start + dice.below(static_cast<std::uint32_t>(size - Image::ram_start)));
    for (std::size_t dump = 0; dump < dumps; ++dump)
      images[dump].set(at, static_cast<std::uint8_t>((dump + dump / 3) * (i % 2 == 0 ? 1 : 3)));
  }
  return images;
}

void time_search(const char* what, const std::vector<Image>& images) {
  const std::clock_t began = std::clock();
  const Solution solution = solve(images, {});
  const double took = seconds_since(began);
  fmt::print("| {} | {} | {:02X} | {} | {} | {} | {:.1f} s |\n", what, images[0].size(),
             images[0][Image::ram_start], images.size(), solution.models.size(),
             solution.crowded ? "yes" : "no", took);
  CHECK(took < 20);
}

void count_luck(const Solution& solution, Claims& claims) {
  ++claims.without;
  for (std::size_t i = 0; i < levels.size(); ++i)
    if (std::ranges::any_of(solution.models, [&](const Model& model) {
          return model.chance <= levels[i] && !model.copy && !model.half_proven;
        }))
      ++claims.lucky[i];
}

void count_solution(const std::vector<Image>& dumps, const Question& question,
                    UnknownMachine& machine, Claims& claims) {
  const std::clock_t began = std::clock();
  const Solution solution = solve(dumps, question);
  const double took = seconds_since(began);
  claims.longest = std::max(claims.longest, took);
  ++claims.runs;
  const UnknownGuard& guard = machine.firmware().guard;
  if (guard.kind == UnknownGuard::Kind::none && !machine.firmware().second)
    count_luck(solution, claims);
  if (!solution.decided()) return;
  ++claims.rule;
  claims.place += solution.place_decided() ? 1 : 0;
  claims.range += solution.range_decided() ? 1 : 0;
  const Model& model = solution.models.front();
  const std::vector<Image> images = at_random(machine, unseen);
  const DumpSet evidence = gather_evidence(dumps, question);
  const bool right = rule_holds(evidence, model, images);
  if (!right && !guard.is_searched()) ++claims.from_nothing;
  if (!right && guard.is_searched()) ++claims.wrong_rule;
  if (solution.place_decided() && !place_holds(evidence, model, images)) ++claims.wrong_place;
  if (solution.range_decided() && !holds(model.check, images)) ++claims.wrong_range;
}

void print_claims(const char* way, const Claims& c) {
  fmt::print("| {} | {} | {} | {} | {} | {} | {} | {} | {} | {} of {} | {} | {} | {:.1f} s |\n",
             way, c.runs, c.rule, c.place, c.range, c.wrong_rule, c.wrong_place, c.wrong_range,
             c.from_nothing, c.lucky[0], c.without, c.lucky[1], c.lucky[2], c.longest);
}

bool wrong(const Claims& claims) {
  return claims.wrong_rule + claims.wrong_place + claims.wrong_range + claims.from_nothing > 0;
}

void check_claims(const Claims& claims) {
  CHECK(claims.wrong_rule == 0);
  CHECK(claims.wrong_place == 0);
  CHECK(claims.wrong_range == 0);
  CHECK(claims.from_nothing == 0);
  CHECK(claims.longest < 20);
  // A chance of 0.1 says: one run in ten. Three times as many, and one by luck, are let pass.
  for (std::size_t i = 0; i < levels.size(); ++i)
    CHECK(claims.lucky[i] <= 3 * levels[i] * claims.without + 1);
}

// How many models of one kind hold in random bytes by luck, against how many were to be expected.
struct Luck {
  const char* kind;
  Question question;
  std::size_t dumps;
  double expected = 0, found = 0;
};

Question only(bool sums, bool xors, bool crcs, unsigned width) {
  Question question;
  question.sums = sums;
  question.balances = false;
  question.xors = xors;
  question.crcs = crcs;
  question.width = width;
  return question;
}

constexpr std::uint32_t trials = 60;

void count_luck(std::uint32_t trial, Luck& luck) {
  Dice dice(9000 + trial);
  const DumpSet evidence = gather_evidence(random_dumps(dice, luck.dumps, 64), luck.question);
  const Solution solution = solve(evidence, luck.question, {}, 250);
  luck.expected += solution.spaces.front().by_luck;
  for (const Model& model : solution.models) {
    luck.found += static_cast<double>(model.family.size() + model.siblings.size());
    for (const Check& twin : model.twins) luck.found += twin.over.empty() ? 0 : 1;
  }
}

}  // namespace

TEST_CASE("discovery decides nothing that its dumps do not show", "[.][figures]") {
  Claims small, random, advised, all;
  std::uint32_t right = 0;
  for (std::uint32_t number = 1; number <= firmwares(); ++number) {
    UnknownMachine machine = machine_number(number);
    const auto session = images_of(one_at_a_time(machine));
    const auto mixed = everything(machine, 6);
    Question question;
    // Every other user says which dumps were taken with nothing changed.
    if (number % 2 == 0) question.restless = bytes_that_differ({session.data(), 3});
    count_solution(session, question, machine, small);
    count_solution(at_random(machine, 8), question, machine, random);
    auto both = session;
    both.insert(both.end(), mixed.begin(), mixed.end());
    count_solution(both, question, machine, advised);
    count_solution(mixed, question, machine, all);
    if (!wrong(small) && !wrong(random) && !wrong(advised) && !wrong(all)) right = number;
  }
  fmt::print(
      "| dumps | runs | rule | place | range | wrong rule | wrong place | wrong range | from "
      "nothing | chance up to 1 | 0.1 | 0.01 | longest |\n");
  print_claims("small changes", small);
  print_claims("eight at random", random);
  print_claims("small changes and six mixed", advised);
  print_claims("six, everything at once", all);
  fmt::print("most memory {} MiB\n", most_memory_mib());
  INFO("nothing wrong up to firmware " << right);
  for (const Claims* claims : {&small, &random, &advised, &all}) check_claims(*claims);
  CHECK(most_memory_mib() < 200);
}

TEST_CASE("discovery's searches of nearly empty chips end in bounded time and memory",
          "[.][figures]") {
  fmt::print("| bytes that move | size | empty | dumps | models | crowded | time |\n");
  for (const std::size_t size : {Image::small_size, Image::large_size}) {
    for (const std::uint8_t empty : {std::uint8_t{0x00}, std::uint8_t{0xFF}}) {
      for (const std::size_t dumps : {2, 3, 4, 8, 30}) {
        Dice dice(static_cast<std::uint32_t>(1000 * dumps + size + empty));
        time_search("one of each dump", sparse_dumps(dice, size, empty, dumps, 1));
        time_search("four of each dump", sparse_dumps(dice, size, empty, dumps, 4));
        time_search("twelve of each dump", sparse_dumps(dice, size, empty, dumps, 12));
        time_search("three counters", counting_dumps(dice, size, empty, dumps, 3));
        time_search("six counters", counting_dumps(dice, size, empty, dumps, 6));
      }
    }
  }
  fmt::print("most memory {} MiB\n", most_memory_mib());
  CHECK(most_memory_mib() < 200);
}

TEST_CASE("discovery's chances are those of random bytes", "[.][figures]") {
  Luck kinds[] = {{"8-bit sums", only(true, false, false, 8), 3},
                  {"8-bit xors", only(false, true, false, 8), 3},
                  {"16-bit sums", only(true, false, false, 16), 2},
                  {"8-bit CRCs", only(false, false, true, 8), 4},
                  {"16-bit CRCs", only(false, false, true, 16), 2}};
  kinds[4].question.over = Range{0x10, 0x2F};
  kinds[4].question.at = 0x30;
  for (Luck& luck : kinds) {
    for (std::uint32_t trial = 0; trial < trials; ++trial) count_luck(trial, luck);
    fmt::print("| {} | {} dumps of 64 random bytes, {} times | {:.1f} | {} |\n", luck.kind,
               luck.dumps, trials, luck.expected, luck.found);
    INFO(luck.kind);
    CHECK(luck.found > luck.expected / 3);
    CHECK(luck.found < luck.expected * 3);
  }
}
