#include "layout/parts_catalogue.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>

#include "base/error.h"
#include "base/json.h"
#include "layout/library.h"
#include "layout/schema.h"

using namespace rtcmend;

namespace {

std::string complaint(std::string_view name) {
  try {
    return "accepted " + need_part(name).name;
  } catch (const Error& error) {
    return std::string(error.what()) + " / " + error.remedy();
  }
}

std::vector<std::string> successors_of(std::string_view name) {
  std::vector<std::string> names;
  for (const Successor& successor : successors(need_part(name)))
    names.push_back(successor.part->name);
  return names;
}

}  // namespace

TEST_CASE("the catalogue fits its schema, and what does not is refused with its place") {
  auto catalogue = parse_json(embedded_text("chips"), "chips");
  CHECK_NOTHROW(check_chips_against_schema(catalogue, "chips"));
  catalogue["parts"][2]["ram_bytes"] = 64;
  CHECK_THROWS_WITH(
      check_chips_against_schema(catalogue, "chips"),
      "chips at /parts/2/ram_bytes: the chip catalogue schema wants 50, 113, 114 or 242 "
      "here, not 64");
}

TEST_CASE("every part has its source, and no number stands twice") {
  std::set<std::string> names;
  REQUIRE(known_parts().size() == 24);
  for (const Part& part : known_parts()) {
    INFO(part.name);
    CHECK(names.insert(part.name).second);
    CHECK_FALSE(part.source.empty());
    for (const Replacement& other : part.replaces) {
      CHECK_NOTHROW(need_part(other.part));
      CHECK_FALSE(other.source.empty());
    }
  }
}

TEST_CASE("the original part has 50 bytes of RAM, its crystal and cell outside") {
  // MC146818A data sheet.
  const Part& part = need_part("MC146818A");
  CHECK(part.ram_bytes == 50);
  CHECK(part.size == 64);
  CHECK(part.package == Package::bare);
  CHECK(part.cell == CellPlace::outside);
  CHECK_FALSE(part.ram_clear);
  CHECK_FALSE(part.keeps_century);
  CHECK_FALSE(part.ships_stopped);
}

TEST_CASE("the C parts keep the century and one byte of RAM less") {
  // DS12885 data sheet.
  for (const char* name : {"DS12C887", "DS12C887A"}) {
    const Part& part = need_part(name);
    CHECK(part.ram_bytes == 113);
    CHECK(part.size == 128);
    CHECK(part.keeps_century);
    CHECK(part.package == Package::potted);
    CHECK(part.ships_stopped);
  }
  CHECK_FALSE(need_part("DS12887").keeps_century);
}

TEST_CASE("the A parts and the bare one clear their RAM at pin 21") {
  // DS12885 data sheet; DS12B887's own.
  for (const char* name : {"DS12885", "DS12887A", "DS12C887A", "DS12B887"})
    CHECK(need_part(name).ram_clear_pin == 21);
  CHECK_FALSE(need_part("DS12887").ram_clear);
  CHECK_FALSE(need_part("DS12C887").ram_clear);
}

TEST_CASE("the R parts charge their cell") {
  // Data sheet 19-5217.
  for (const char* name : {"DS12R885", "DS12CR887", "DS12R887"})
    CHECK(need_part(name).trickle_charger);
  CHECK_FALSE(need_part("DS12885").trickle_charger);
  CHECK(need_part("DS12R887").cell == CellPlace::rechargeable);
}

TEST_CASE("a part knows what can take its place") {
  // DS12885 data sheet: DS12887 for DS1287, DS12885 for DS1285; the others are common practice.
  CHECK(successors_of("DS1285") == std::vector<std::string>{"DS12885", "BQ3285"});
  CHECK(successors_of("DS1287") ==
        std::vector<std::string>{"DS1287A", "DS12887", "DS12887A", "DS12C887"});
  CHECK(successors_of("MC146818").empty());
  // Small outlines only, from memory: nothing for a socket.
  CHECK(successors_of("DS12885").empty());
}

TEST_CASE("a part is found as people write it, a mistyped one answered with its neighbours") {
  CHECK(complaint(" ds12887+") == "accepted DS12887");
  CHECK(complaint("DS-12887A") == "accepted DS12887A");
  CHECK(complaint("DS12878") ==
        "part: there is no part \"DS12878\" in the catalogue / did you mean DS1287 or "
        "DS1287A or DS12887?");
  CHECK(complaint("banana") ==
        "part: there is no part \"banana\" in the catalogue / See the parts.");
}

TEST_CASE("each part is fed at its own pins, and one whose pins are not known at none") {
  // MC146818A: supply 3 to 6 V, published; that 24 is VDD and 20 CKFS is from memory.
  const Part& early = need_part("MC146818A");
  REQUIRE(early.cell_input);
  CHECK(early.cell_input->plus == "24");
  CHECK(early.cell_input->least_volts == 3);
  CHECK(early.cell_input->most_volts == 6);
  CHECK(early.cell_input->between == Between::diode_and_resistor);
  // DS12885: 2.5 V; the upper limit and the pins from memory.
  const Part& bare = need_part("DS12885");
  REQUIRE(bare.cell_input);
  CHECK(bare.cell_input->plus == "20");
  CHECK(bare.cell_input->least_volts == 2.5);
  CHECK(bare.cell_input->between == Between::nothing);
  for (const char* unknown : {"M48T86", "BQ4285", "BQ3287", "DS1685", "DS17887", "DS12R885"}) {
    CHECK_FALSE(need_part(unknown).cell_input);
    CHECK(need_part(unknown).pins.empty());
  }
}

TEST_CASE("the early part sets VRT when it is read and counts from faster crystals") {
  // From memory, but for the crystals: MC146818A.
  const Part& early = need_part("MC146818");
  CHECK(early.vrt_set_by_reading);
  CHECK(early.running_dividers == std::vector<int>{0, 1, 2});
  CHECK(early.daylight_saving == "last Sunday of April");
  CHECK_FALSE(need_part("DS12885").vrt_set_by_reading);
  CHECK(need_part("DS12885").running_dividers == std::vector<int>{2});
  CHECK(need_part("DS12885").daylight_saving == "first Sunday of April");
  // Bit 4 of 0Ah selects the bank: from memory.
  CHECK(need_part("DS1687").running_dividers == std::vector<int>{2, 3});
}
