#include "terminal/finding_list.h"

#include <catch2/catch.hpp>

#include "base/files.h"
#include "judge/finding_kind.h"

using namespace rtcmend;

TEST_CASE("docs/findings.md is the list of all kinds of findings") {
  CHECK(read_whole(RTCMEND_SOURCE_DIR "/docs/findings.md") == finding_list());
}

TEST_CASE("the list has every kind once, with its severity and what it makes of the dump") {
  const std::string list = finding_list();
  for (const KindOfFinding& kind : finding_kinds) {
    const std::string cell = "| `" + std::string(kind.id) + "` |";
    REQUIRE(list.find(cell) != std::string::npos);
    CHECK(list.find(cell) == list.rfind(cell));
    CHECK(finding_kind_named(kind.id) == kind.kind);
  }
  CHECK(list.find("| `data-bit-stuck` | fault | dump misread |") != std::string::npos);
  CHECK(list.find("| `oscillator-off` | fault | clock stopped |") != std::string::npos);
  CHECK(finding_kind_named("nothing-of-ours") == std::nullopt);
}
