#include "make/drives.h"

#include <catch2/catch.hpp>

#include "complaint.h"
#include "layout/library.h"
#include "layout/load.h"

using namespace rtcmend;

namespace {

std::vector<int> types(const DriveAdvice& advice) {
  std::vector<int> all;
  for (const DriveMatch& match : advice.matches) all.push_back(match.type.type);
  return all;
}

DriveAdvice advice_for(const Geometry& geometry) {
  return advise_on_drive(disk_of(geometry), nullptr);
}

DriveAdvice advice_for(const Geometry& geometry, const std::string& layout) {
  const Layout loaded = built_in_layout(layout);
  return advise_on_drive(disk_of(geometry), &loaded);
}

std::vector<std::string> written(const std::vector<Setting>& settings) {
  std::vector<std::string> all;
  for (const Setting& setting : settings)
    all.push_back(setting.field + "=" + std::to_string(std::get<std::int64_t>(setting.value)));
  return all;
}

/// A layout with a table of its own: type 1 is 100 x 2 x 10, type 30 the same with a cylinder less.
Layout with_own_table() {
  return load_layout(R"({"layout": "own", "title": "Own table",
    "of": "at", "drive_types": [
    {"type": 1, "cylinders": 100, "heads": 2, "sectors": 10, "write_precompensation": null, "landing_zone": 100},
    {"type": 30, "cylinders": 99, "heads": 2, "sectors": 10, "write_precompensation": 0, "landing_zone": 99}]})",
                     "own.json", embedded_text);
}

}  // namespace

// All types from TechHelp, "AT BIOS Hard Disk Types".

TEST_CASE("a disk of 615 cylinders, 4 heads and 17 sectors is type 2 or 6 exactly") {
  const DriveAdvice advice = advice_for({615, 4, 17});
  REQUIRE(advice.matches.size() >= 3);
  CHECK(advice.common_table);
  CHECK(advice.matches[0].type.type == 2);
  CHECK(advice.matches[0].fit == Fit::exact);
  CHECK(advice.matches[0].capacity == 21411840);  // 615 x 4 x 17 x 512
  CHECK(advice.matches[0].lost == 0);
  CHECK(advice.matches[0].type.write_precompensation == 300);
  CHECK(advice.matches[0].type.landing_zone == 615);
  CHECK(advice.matches[1].type.type == 6);
  CHECK_FALSE(advice.matches[1].type.write_precompensation);
  // 16, 24 and 26 have 612 cylinders: 3 x 4 x 17 x 512 bytes stay unused.
  CHECK(advice.matches[2].type.type == 16);
  CHECK(advice.matches[2].fit == Fit::inside);
  CHECK(advice.matches[2].lost == 104448);
}

TEST_CASE("types that run past the disk's end in any direction are left out") {
  // 306 x 4 x 17: 1, 23, 25, 29. Everything else has more cylinders or more heads.
  CHECK(types(advice_for({306, 4, 17})) == std::vector<int>{1, 23, 25, 29});
  CHECK(advice_for({305, 4, 17}).matches.empty());
  CHECK(advice_for({5000, 16, 16}).matches.empty());
}

TEST_CASE("a disk between two types gets the one that loses least first") {
  // 980 x 5 x 17: 17 (977 cylinders), 28 (967), then 11 (855).
  const DriveAdvice advice = advice_for({980, 5, 17});
  REQUIRE(advice.matches.size() > 3);
  CHECK(advice.matches[0].type.type == 17);
  CHECK(advice.matches[0].lost == 130560);  // 3 x 5 x 17 x 512
  CHECK(advice.matches[1].type.type == 28);
  CHECK(advice.matches[2].type.type == 11);
}

TEST_CASE("types from 24 up of the common table are unsure") {
  const DriveAdvice advice = advice_for({306, 4, 17});
  CHECK_FALSE(advice.matches[0].unsure);
  CHECK_FALSE(advice.matches[1].unsure);  // 23
  CHECK(advice.matches[2].unsure);        // 25
  CHECK(advice.matches[3].unsure);        // 29
}

TEST_CASE("with a capacity alone every type that is not larger fits") {
  // 615 x 4 x 17 x 512 = 21,411,840.
  const DriveAdvice same = advise_on_drive(disk_of_capacity(21411840), nullptr);
  CHECK(same.matches[0].type.type == 2);
  CHECK(same.matches[0].fit == Fit::exact);
  const DriveAdvice less = advise_on_drive(disk_of_capacity(21411839), nullptr);
  CHECK(less.matches[0].type.type == 13);  // 306 x 8 x 17, as large as type 16
  CHECK(less.matches[0].fit == Fit::inside);
  // Type 9, 900 x 15 x 17 x 512 = 117,504,000, is the largest of the table.
  const DriveAdvice large = advise_on_drive(disk_of_capacity(520000000), nullptr);
  CHECK(large.matches.size() == 31);
  CHECK(large.matches[0].type.type == 9);
  CHECK(large.matches[0].lost == 402496000);
  CHECK(advise_on_drive(disk_of_capacity(1000), nullptr).matches.empty());
}

TEST_CASE("a layout's own table is taken and is sure") {
  const Layout layout = with_own_table();
  const DriveAdvice advice = advise_on_drive(disk_of({100, 2, 10}), &layout);
  CHECK_FALSE(advice.common_table);
  CHECK(types(advice) == std::vector<int>{1, 30});
  CHECK_FALSE(advice.matches[1].unsure);
}

TEST_CASE("a layout with blocks for disks by hand offers both") {
  // RBIL61 CMOS 1Bh-2Ch.
  const DriveAdvice advice = advice_for({820, 6, 26}, "at+disks-1b");
  REQUIRE(advice.by_hand.size() == 2);
  CHECK(advice.by_hand[0].label == "first disk");
  CHECK(advice.by_hand[0].type == 47);
  CHECK(advice.by_hand[0].problem.empty());
  CHECK(written(advice.by_hand[0].settings) ==
        std::vector<std::string>{"disk_0_type=47", "disk_0_cylinders=820", "disk_0_heads=6",
                                 "disk_0_sectors=26", "disk_0_landing_zone=820"});
  CHECK(written(advice.by_hand[1].settings)[1] == "disk_1_cylinders=820");
  CHECK(advice_for({820, 6, 26}, "at").by_hand.empty());
}

TEST_CASE("block D names the types that turn it on") {
  // RBIL61 CMOS 1Eh-2Dh; type 47 is what 13 of 17 images of real machines have (measured).
  const DriveAdvice advice = advice_for({820, 6, 26}, "at+disks-26");
  REQUIRE(advice.by_hand.size() == 2);
  CHECK(advice.by_hand[0].type == 47);
  CHECK(advice.by_hand[1].type == 47);
  CHECK(written(advice.by_hand[0].settings)[0] == "disk_0_type=47");
  CHECK(written(advice.by_hand[1].settings)[0] == "disk_1_type=47");
}

TEST_CASE("a block with 12 bits cannot take more than 4,095 cylinders") {
  // RBIL61 CMOS 1Dh, 1Eh.
  const DriveAdvice advice = advice_for({5000, 4, 17}, "at+disks-1d");
  REQUIRE(advice.by_hand.size() == 2);
  CHECK(advice.by_hand[0].problem == "disk_0_cylinders: 5000 is not among 1-4095");
}

TEST_CASE("a layout without disk types is refused") {
  CHECK(complaint([] { advice_for({615, 4, 17}, "balance"); }).find("balance: it keeps") == 0);
}

TEST_CASE("numbers that no disk has are refused by their option") {
  CHECK(complaint([] {
          disk_of({0, 4, 17});
        }) == "cylinders: 0 is not a number of cylinders / try: 1 to 65535");
  CHECK(complaint([] {
          disk_of({615, 256, 17});
        }) == "heads: 256 is not a number of heads / try: 1 to 255");
  CHECK(complaint([] {
          disk_of({615, 4, -1});
        }) == "sectors: -1 is not a number of sectors a track / try: 1 to 255");
}

TEST_CASE("capacities are decimal as disks are sold, or binary when they say so") {
  CHECK(parse_capacity("40M") == 40000000);
  CHECK(parse_capacity("40 mb") == 40000000);
  CHECK(parse_capacity("40MiB") == 41943040);
  CHECK(parse_capacity("42.8M") == 42800000);
  CHECK(parse_capacity("20480KiB") == 20971520);
  CHECK(parse_capacity("1.2G") == 1200000000);
  CHECK(parse_capacity("1GiB") == 1073741824);
}

TEST_CASE("a capacity without unit, without digits or of nothing is refused") {
  for (const char* text : {"40", "M", "", "-40M", "0M", "4.0.0M", "40X", "1e3M", "9999999999M"}) {
    INFO(text);
    CHECK(complaint([&] { parse_capacity(text); }).find("capacity: ") == 0);
  }
}
