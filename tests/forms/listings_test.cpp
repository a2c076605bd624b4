#include <catch2/catch.hpp>

#include "forms/collection.h"
#include "forms/samples.h"

// tests/forms/listings/ holds what programs print and people type of two invented chips.

using namespace rtcmend;
using namespace rtcmend::test;
using Catch::Matchers::Contains;

TEST_CASE("every listing of the collection is read rightly, or refused with its readings") {
  const std::vector<Listed> all = collection();
  CHECK(all.size() >= 120);
  for (const Listed& listed : all) {
    CAPTURE(listed.name);
    const std::string refused = refusal(listed.content);
    if (listed.asks) {
      CHECK_THAT(refused, Contains("can be read in"));
      continue;
    }
    CHECK(refused == "");
    if (refused.empty()) CHECK(read_dump(listed.content, listed.name).image == listed.wanted);
  }
}

TEST_CASE(
    "with the evidence of the chip's own checks every listing of the collection is read rightly") {
  ReadingOptions options;
  options.likeness = likeness;
  for (const Listed& listed : collection()) {
    CAPTURE(listed.name);
    CHECK(read_dump(listed.content, listed.name, options).image == listed.wanted);
  }
}
