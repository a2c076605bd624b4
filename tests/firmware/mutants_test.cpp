// Whether the bench would notice: firmwares with one thing wrong (mutants.cmake says what) are put
// through what the real one passes.
#include <catch2/catch.hpp>

#include "base/error.h"
#include "base/text.h"
#include "proof.h"
#include "test_bench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

/// The names of the mutants; each is a file of that name.
std::vector<std::string> mutants() {
  return split(RTCMEND_MUTANTS, ',');
}

std::string mutant_hex(const std::string& name) {
  return std::string(RTCMEND_MUTANTS_IN) + "/" + name + ".hex";
}

/// Whether the bench itself complains so of a mutant that reads, writes and switches off.
bool is_blamed(const std::string& name, const std::string& words) {
  TestBench bench({}, {}, {}, mutant_hex(name));
  try {
    const ChipRead before = bench.read();
    bench.exchange.run([&](Talk& talk) { write_chip(talk, {before.image, {}}, before); });
    bench.switch_off();
  } catch (const Error&) {
    // What goes wrong by it is another matter.
  }
  for (const std::string& violation : bench.violations())
    if (violation.find(words) != std::string::npos) return true;
  return false;
}

constexpr std::size_t shares = 9;  // so that no test takes long

}  // namespace

TEST_CASE("the firmware passes every scene of the bench", "[long]") {
  CHECK(complaints(RTCMEND_FIRMWARE) == std::vector<std::string>{});
}

TEST_CASE("what is forbidden by tAHL, tCH and tF is named by the bench itself") {
  CHECK(is_blamed("address_not_held", "address line 0 not held"));
  CHECK(is_blamed("cs_ends_early", "CS not held to the strobe's end"));
  CHECK(is_blamed("cs_ends_in_a_write", "CS not held to the strobe's end"));
  CHECK(is_blamed("emptied_by_its_sense", "the supply falls too fast"));
}

TEST_CASE("there are fifteen mutants and more") {
  CHECK(mutants().size() >= 15);
}

TEMPLATE_TEST_CASE_SIG("every mutant of the firmware is caught, share", "[long][count]",
                       ((std::size_t share), share), 0, 1, 2, 3, 4, 5, 6, 7, 8) {
  static_assert(share < shares);
  const auto names = mutants();
  for (std::size_t i = share; i < names.size(); i += shares) {
    const auto found = complaints(mutant_hex(names[i]));
    INFO(names[i]);
    CHECK_FALSE(found.empty());
    if (!found.empty()) SUCCEED(names[i] << ": " << found.front());  // shown with -s
  }
}
