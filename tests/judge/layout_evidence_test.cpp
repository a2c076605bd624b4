#include "judge/layout_evidence.h"

#include <catch2/catch.hpp>

#include "layout/library.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

Image with(std::initializer_list<std::pair<std::size_t, std::uint8_t>> changes) {
  auto bytes = at_64_bytes();
  for (const auto& [at, byte] : changes) bytes[at] = byte;
  return Image(bytes);
}

const LayoutEvidence::OfField& field(const LayoutEvidence& evidence, const std::string& id) {
  for (const auto& one : evidence.fields)
    if (one.id == id) return one;
  throw std::runtime_error("no field " + id);
}

}  // namespace

TEST_CASE("a check counts where it holds, where it fails, and not at all on blank bytes") {
  const Layout at = built_in_layout("at");
  // 44h for 40h at 10h: the sum 0267h becomes 026Bh (RBIL61 CMOS 2Eh); the third is not resealed.
  const std::vector<Image> dumps{with({}), with({{0x10, 0x44}, {0x2F, 0x6B}}), with({{0x10, 0x44}}),
                                 Image(std::vector<std::uint8_t>(64, 0))};
  const LayoutEvidence evidence = evidence_for(at, dumps);
  CHECK(evidence.dumps == 4);
  CHECK(evidence.different == 4);
  REQUIRE(evidence.checks.size() == 1);
  CHECK(evidence.checks[0].held == 2);
  CHECK(evidence.checks[0].failed == 1);
  CHECK_FALSE(evidence.is_unopposed());
}

TEST_CASE("a field tells how many values were seen, and in how many dumps it has no meaning") {
  const Layout at = built_in_layout("at");
  // Type 7 of the second floppy has no meaning (RBIL61 CMOS 10h); none and 1.44M have.
  const std::vector<Image> dumps{with({}), with({}), with({{0x10, 0x44}}), with({{0x10, 0x47}})};
  const LayoutEvidence evidence = evidence_for(at, dumps);
  CHECK(field(evidence, "floppy_b").legal == 3);
  CHECK(field(evidence, "floppy_b").odd == 1);
  CHECK(field(evidence, "floppy_a").values == 1);
  CHECK(evidence.different == 3);
}

TEST_CASE("bytes that all dumps hold alike are said to have never changed") {
  const LayoutEvidence evidence = evidence_for(
      built_in_layout("at"), std::vector<Image>{with({}), with({{0x10, 0x44}, {0x2F, 0x6B}})});
  CHECK(evidence.is_unopposed());
  CHECK(to_prose(evidence.never_changed) == "0Eh-0Fh, 11h-2Eh, 30h-3Fh");
}
