#include "discover/dump_set.h"

#include <catch2/catch.hpp>

#include "base/error.h"

using namespace rtcmend;

namespace {

using Bytes = DumpSet::Bytes;

Bytes filled(std::size_t size, std::uint8_t value) {
  return Bytes(size, value);
}

std::string refusal_of(std::vector<Bytes> dumps, const Question& question = {}) {
  try {
    gather_evidence(dumps, question);
  } catch (const Error& error) {
    return error.what();
  }
  return "";
}

}  // namespace

TEST_CASE("dumps of no size, of two sizes or of more than a chip are refused") {
  const std::string one_size = "dumps: they must all have one size, 1 to 128 bytes";
  CHECK(refusal_of({}).find(one_size) == 0);
  CHECK(refusal_of({{}, {}}).find(one_size) == 0);
  CHECK(refusal_of({filled(64, 1), filled(63, 2)}).find(one_size) == 0);
  CHECK(refusal_of({filled(129, 1), filled(129, 2)}).find(one_size) == 0);
  CHECK(refusal_of({filled(1, 1), filled(1, 2)}).empty());
  CHECK(refusal_of({filled(128, 1), filled(128, 2)}).empty());
}

TEST_CASE("images of two sizes are refused, and so is none") {
  CHECK_THROWS_AS(gather_evidence(std::vector<Image>{}, {}), Error);
  CHECK_THROWS_AS(
      gather_evidence(std::vector<Image>{Image(filled(64, 1)), Image(filled(128, 2))}, {}), Error);
}

TEST_CASE("equal dumps say nothing: they are counted, and one kind alone is refused") {
  const DumpSet evidence =
      gather_evidence(std::vector<Bytes>{filled(8, 1), filled(8, 2), filled(8, 1)}, {});
  CHECK(evidence.dumps.size() == 2);
  CHECK(evidence.repeats == 1);
  CHECK(refusal_of({filled(8, 1), filled(8, 1)}).find("these dumps are all the same") !=
        std::string::npos);
}

TEST_CASE("a question about bytes that are not there is refused, holes may be anywhere") {
  Question at;
  at.at = 8;
  CHECK(refusal_of({filled(8, 1), filled(8, 2)}, at).find("at: 08h is not known") == 0);
  Question over;
  over.over = {0x02, 0x08};
  CHECK(refusal_of({filled(8, 1), filled(8, 2)}, over).find("over: 08h is not known") == 0);
  over.holes = {0x70};
  over.over = {0x02, 0x07};
  CHECK(refusal_of({filled(8, 1), filled(8, 2)}, over).empty());
}

TEST_CASE("a range may pass over a hole that no dump knows") {
  std::vector<Image> dumps{Image(filled(64, 1)), Image(filled(64, 2))};
  dumps[1].forget(0x20);
  Question question;
  question.over = {0x1F, 0x21};
  CHECK_THROWS_AS(gather_evidence(dumps, question), Error);
  question.holes = {0x20};
  const DumpSet evidence = gather_evidence(dumps, question);
  CHECK_FALSE(evidence.covers({0x1F, 0x21}, 0x20));
  CHECK(evidence.covers({0x1F, 0x21}, 0x21));
  CHECK_FALSE(evidence.varies[0x20]);
}
