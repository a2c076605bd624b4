// Whether the bench would notice: firmwares with one thing wrong (mutants.cmake says what) are put
// through what the real one passes.
#include <catch2/catch.hpp>

#include "base/text.h"
#include "proof.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

/// The names of the mutants; each is a file of that name.
std::vector<std::string> mutants() {
  return split(RTCMEND_MUTANTS, ',');
}

/// Every fifth from one on: so that no test takes long.
void check_fifth(std::size_t first) {
  const auto names = mutants();
  for (std::size_t i = first; i < names.size(); i += 5) {
    const auto found = complaints(std::string(RTCMEND_MUTANTS_IN) + "/" + names[i] + ".hex");
    INFO(names[i]);
    CHECK_FALSE(found.empty());
    if (!found.empty()) SUCCEED(names[i] << ": " << found.front());  // shown with -s
  }
}

}  // namespace

TEST_CASE("the firmware passes every scene of the bench", "[long]") {
  CHECK(complaints(RTCMEND_FIRMWARE) == std::vector<std::string>{});
}

TEST_CASE("there are fifteen mutants and more") {
  CHECK(mutants().size() >= 15);
}

TEST_CASE("every mutant of the firmware is caught, first fifth", "[long][count]") {
  check_fifth(0);
}

TEST_CASE("every mutant of the firmware is caught, second fifth", "[long][count]") {
  check_fifth(1);
}

TEST_CASE("every mutant of the firmware is caught, third fifth", "[long][count]") {
  check_fifth(2);
}

TEST_CASE("every mutant of the firmware is caught, fourth fifth", "[long][count]") {
  check_fifth(3);
}

TEST_CASE("every mutant of the firmware is caught, last fifth", "[long][count]") {
  check_fifth(4);
}
