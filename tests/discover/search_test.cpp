#include "discover/search.h"

#include <catch2/catch.hpp>

#include "discover/plain_search.h"
#include "discover/random_dumps.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

std::vector<Match> fast_crc_search(const std::vector<DumpSet::Bytes>& dumps, const Addresses& holes,
                                   unsigned width) {
  Question question;
  question.holes = holes;
  return search_crcs(gather_evidence(dumps, question), question, width, {}, {}).matches;
}

std::vector<Match> fast_sum_search(const std::vector<DumpSet::Bytes>& dumps, const Addresses& holes,
                                   unsigned width) {
  Question question;
  question.holes = holes;
  return search_sums(gather_evidence(dumps, question), question, width, {}).matches;
}

}  // namespace

TEST_CASE("the fast CRC-16 search finds what the plain one finds in dumps that differ everywhere",
          "[long][count]") {
  for (std::uint32_t start = 1; start <= 4; ++start) {
    Dice dice(start);
    const auto dumps = random_dumps(dice, 2, 5 + start);
    const auto plain = in_words(plain_crc_search(dumps, {}, 16, {}));
    CHECK(plain.size() > 10);  // two dumps leave many, so that the comparison means something
    CHECK(in_words(fast_crc_search(dumps, {}, 16)) == plain);
  }
}

TEST_CASE("the fast CRC-16 search finds what the plain one finds in dumps that differ little",
          "[long][count]") {
  for (std::uint32_t start = 1; start <= 6; ++start) {
    Dice dice(100 + start);
    const auto dumps = alike_dumps(dice, start % 2 == 0 ? 2 : 3, 9, 4);
    CHECK(in_words(fast_crc_search(dumps, {}, 16)) ==
          in_words(plain_crc_search(dumps, {}, 16, {})));
  }
}

TEST_CASE("the fast CRC-16 search passes over holes as the plain one does") {
  Dice dice(7);
  const auto dumps = random_dumps(dice, 2, 8);
  const auto plain = in_words(plain_crc_search(dumps, {2, 5}, 16, {}));
  CHECK(plain.size() > 10);
  CHECK(in_words(fast_crc_search(dumps, {2, 5}, 16)) == plain);
}

TEST_CASE("the fast CRC-8 search finds what the plain one finds") {
  for (std::uint32_t start = 1; start <= 8; ++start) {
    Dice dice(200 + start);
    const bool everywhere = start % 2 == 0;
    const std::size_t size = 10 + start, count = 2 + start % 3;
    const auto dumps =
        everywhere ? random_dumps(dice, count, size) : alike_dumps(dice, count, size, 5);
    const Addresses holes = start > 4 ? Addresses{3, 4} : Addresses{};
    CHECK(in_words(fast_crc_search(dumps, holes, 8)) ==
          in_words(plain_crc_search(dumps, holes, 8, {1, 0xFF})));
  }
}

TEST_CASE("the fast sum search finds what the plain one finds") {
  for (std::uint32_t start = 1; start <= 24; ++start) {
    Dice dice(300 + start);
    const bool everywhere = start % 2 == 0;
    const std::size_t size = 20 + start % 12, count = 2 + start % 3;
    const auto dumps =
        everywhere ? random_dumps(dice, count, size) : alike_dumps(dice, count, size, 6);
    const Addresses holes = start > 12 ? Addresses{3, 4, 11} : Addresses{};
    for (const unsigned width : {8U, 16U})
      CHECK(in_words(fast_sum_search(dumps, holes, width)) ==
            in_words(plain_sum_search(dumps, holes, width)));
  }
}

TEST_CASE("a known place and a known range narrow a search to the matches that have them",
          "[long]") {
  Dice dice(11);
  const auto dumps = random_dumps(dice, 2, 9);
  Question question;
  question.at = 7;
  question.over = Range{2, 5};
  std::vector<Match> expected;
  for (const Match& match : plain_crc_search(dumps, {}, 16, {}))
    if (match.at == 7 && match.range == Range{2, 5}) expected.push_back(match);
  const auto found = search_crcs(gather_evidence(dumps, question), question, 16, {}, {}).matches;
  CHECK(in_words(found) == in_words(expected));
}

TEST_CASE("a known range may begin in bytes that never change", "[long]") {
  Dice dice(12);
  auto dumps = random_dumps(dice, 2, 9);
  dumps[1][2] = dumps[0][2];
  dumps[1][3] = dumps[0][3];
  Question question;
  question.over = Range{2, 5};
  std::vector<Match> expected;
  for (const Match& match : plain_crc_search(dumps, {}, 16, {}))
    if (match.range == Range{2, 5}) expected.push_back(match);
  CHECK(expected.size() > 5);
  const auto found = search_crcs(gather_evidence(dumps, question), question, 16, {}, {}).matches;
  CHECK(in_words(found) == in_words(expected));
}

TEST_CASE("a stopped search says that it is not complete") {
  Dice dice(13);
  const auto dumps = random_dumps(dice, 3, 16);
  const std::atomic<bool> stop = true;
  const auto result = search_crcs(gather_evidence(dumps, {}), {}, 16, {}, {{}, &stop});
  CHECK_FALSE(result.complete);
  CHECK(result.matches.empty());
}

TEST_CASE("a long search reports its progress from start to end") {
  Dice dice(14);
  const auto dumps = random_dumps(dice, 3, 8);
  std::vector<double> seen;
  const Watch watch{[&](double part) { seen.push_back(part); }, nullptr};
  CHECK(search_crcs(gather_evidence(dumps, {}), {}, 16, {}, watch).complete);
  REQUIRE(seen.size() > 20);
  CHECK(std::is_sorted(seen.begin(), seen.end()));
  CHECK(seen.front() < 0.01);
  CHECK(seen.back() > 0.98);
}

// Three bytes that count starts fit thousands of CRCs; a list of them would fill the memory.
TEST_CASE(
    "a crowd of matches is thinned out to the decisive ones, and a full one ends the search") {
  Dice dice(15);
  const DumpSet evidence = gather_evidence(random_dumps(dice, 3, 16), {});
  const Threshold out_of_reach{0, 1000}, within_reach{0, 0};
  Harvest harvest(evidence, out_of_reach);
  Match match{{}, {2, 5}, 7, Order::high_first};
  REQUIRE(harvest.wants(match));
  for (std::size_t i = 0; i < crowd; ++i) harvest.take(match);
  CHECK_FALSE(harvest.wants(match));
  CHECK_FALSE(harvest.full());
  const SearchResult thin = harvest.bring_home();
  CHECK(thin.crowded);
  CHECK(thin.matches.empty());
  CHECK(thin.dismissed == crowd + 1);

  Harvest decisive(evidence, within_reach);
  for (std::size_t i = 0; i < 2 * crowd; ++i) decisive.take(match);
  CHECK(decisive.full());
  CHECK(decisive.bring_home().matches.size() == 40000);
}
