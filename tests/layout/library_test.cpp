#include "layout/library.h"

#include <catch2/catch.hpp>

#include "base/error.h"

using namespace rtcmend;

TEST_CASE("every built-in layout names its sources, and goes by its own name") {
  const auto names = built_in_layouts();
  REQUIRE(names.size() >= 40);
  for (const std::string& name : names) {
    INFO(name);
    const Layout layout = built_in_layout(name);
    CHECK(layout.id == name);
    CHECK_FALSE(layout.sources.empty());
    for (const Field& field : layout.fields) CHECK_FALSE(field.source.empty());
    for (const Check& check : layout.checks) CHECK_FALSE(check.source.empty());
  }
}

TEST_CASE("traits stand in the order of their families, however they are named") {
  CHECK(built_in_layout("at+memory-34+disks-26+sum-40-7d").id == "at+sum-40-7d+disks-26+memory-34");
}

TEST_CASE("a layout needs 128 bytes only when something of it stands in the upper half") {
  CHECK(built_in_layout("at").size == 64);
  CHECK(built_in_layout("at+sum-34-3d+memory-34").size == 64);
  CHECK(built_in_layout("at+sum-40-7d").size == 128);
  CHECK(built_in_layout("chip").size == 64);
}

TEST_CASE("traits that cannot be one firmware's are refused together, with the reason") {
  const auto complaint = [](const char* name) {
    try {
      (void)built_in_layout(name);
      return std::string("accepted");
    } catch (const Error& error) {
      return std::string(error.what());
    }
  };
  CHECK(complaint("at+sum-40-7d+sum-40-7c") ==
        "at: sum-40-7d and sum-40-7c are two answers to one question (second sum)");
  CHECK(complaint("at+repeat-11+repeat-13") ==
        "at: repeat-11 and repeat-13 belong to different firmware");
  CHECK(complaint("at+memory-34+shadow-34") ==
        "at: memory-34 and shadow-34 both have a meaning for 34h");
  CHECK(complaint("crc+sum-40-7d") == "crc: this class has no trait sum-40-7d: it belongs to at");
  CHECK(complaint("at+sum-40-7e") == "layout: the class at has no trait \"sum-40-7e\"");
}

TEST_CASE("a trait may take the place of what its class has") {
  // RBIL61 CMOS 2Fh: the first sum over 10h-20h alone.
  const Layout at = built_in_layout("at+sum-10-20");
  CHECK(at.checks.at(0).id == "sum-10-20");
  CHECK(at.checks_over(0x21).empty());
  // Measured: the small relatives of the CRC class leave 14h bit 0 off, whatever is fitted.
  CHECK_FALSE(built_in_layout("crc+copy-29").need_field("floppy_fitted").follows);
  CHECK(built_in_layout("crc").need_field("floppy_fitted").follows);
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
