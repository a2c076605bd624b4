#include "layout/library.h"

#include <catch2/catch.hpp>

#include "base/error.h"
#include "layout/embedded.h"
#include "layout/load.h"

using namespace rtcmend;

TEST_CASE("every built-in layout fits the schema and names its sources") {
  const auto ids = built_in_layouts();
  REQUIRE(ids.size() >= 5);
  for (const std::string& id : ids) {
    INFO(id);
    const Layout layout = load_layout(built_in_text(id), id, embedded_text);
    CHECK(layout.id == id);
    CHECK_FALSE(layout.sources.empty());
    for (const Field& field : layout.fields) CHECK_FALSE(field.source.empty());
    for (const Check& check : layout.checks) CHECK_FALSE(check.source.empty());
  }
}

TEST_CASE("the AT class keeps its sum at 2Eh and its century at 32h") {
  // RBIL61, CMOS 2Eh, 2Fh and 32h.
  const Layout at = built_in_layout("at");
  REQUIRE(at.checks.size() == 1);
  CHECK(at.checks[0].id == "sum-10-2d");
  CHECK(at.checks[0].over.at(0).range == Range{0x10, 0x2D});
  CHECK(at.checks[0].stored_at == 0x2E);
  CHECK(at.checks[0].order == Order::high_first);
  CHECK(at.fields_at(0x32).at(0)->id == "century");
  CHECK(at.checks_over(0x10).size() == 1);
  CHECK(at.checks_over(0x30).empty());
  CHECK(at.checks_at(0x2F).size() == 1);
}

TEST_CASE("an unknown layout or field is answered with its neighbours") {
  CHECK_THROWS_WITH(built_in_layout("at-46"), Catch::Contains("no built-in layout \"at-46\""));
  try {
    (void)built_in_layout("at").need_field("flopy_a");
    FAIL("accepted");
  } catch (const Error& error) {
    CHECK(error.remedy() == "did you mean floppy_a or floppy_b?");
  }
}

TEST_CASE("a name like none that is known is answered with where the names are") {
  const Layout at = built_in_layout("at");
  try {
    (void)at.need_field("xyzzyxyzzyxyzzy");
    FAIL("accepted");
  } catch (const Error& error) {
    CHECK(error.remedy() == "See its fields.");
  }
  try {
    (void)built_in_layout("xyzzyxyzzyxyzzy");
    FAIL("accepted");
  } catch (const Error& error) {
    CHECK(error.remedy() == "A layout of your own is given as a file; see the built-in ones.");
  }
}

TEST_CASE("the common drive table starts with type 1 and leaves out 15") {
  // TechHelp, "AT BIOS Hard Disk Types".
  const auto& types = common_drive_types();
  REQUIRE(types.size() == 31);
  CHECK(types[0].cylinders == 306);
  CHECK(types[0].heads == 4);
  CHECK(types[0].write_precompensation == 128);
  for (const DriveType& type : types) CHECK(type.type != 15);
}
