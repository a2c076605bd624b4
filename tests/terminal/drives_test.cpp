#include "terminal/drives.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "layout/library.h"
#include "render/drives_json.h"

using namespace rtcmend;

namespace {

std::string text_for(const Geometry& geometry, const char* layout = nullptr,
                     std::size_t most = 100) {
  std::optional<Layout> loaded;
  if (layout != nullptr) loaded = built_in_layout(layout);
  const Layout* asked = loaded ? &*loaded : nullptr;
  const Disk disk = disk_of(geometry);
  const DriveAdvice advice = advise_on_drive(disk, asked);
  return drives_text({disk, advice, asked}, most, Ink());
}

bool has(const std::string& text, std::string_view words) {
  return text.find(words) != std::string::npos;
}

std::size_t widest(const std::string& text) {
  std::size_t most = 0, length = 0;
  for (const char c : text) {
    length = c == '\n' ? 0 : length + 1;
    most = std::max(most, length);
  }
  return most;
}

}  // namespace

TEST_CASE("types are shown best first with precompensation, landing zone and what is lost") {
  // TechHelp: types 1, 23, 25 and 29.
  CHECK(text_for({306, 4, 17}) ==
        "Disk: 306 cylinders, 4 heads, 17 sectors a track: 10.7 MB (10.2 MiB)\n"
        "Types of the common table that it can be used with\n"
        "  type cylinders  heads  sectors  precomp.  landing   capacity  fit         lost\n"
        "    1        306      4       17       128      305    10.7 MB  exact          -\n"
        "   23        306      4       17       all      336    10.7 MB  exact          -\n"
        "   25*       306      4       17      none      340    10.7 MB  exact          -\n"
        "   29*       306      4       17       all      340    10.7 MB  exact          -\n"
        "\n"
        "exact: the same shape. inside: smaller, so that it never runs past the disk's\n"
        "end. precomp. is the first cylinder written with precompensation, landing the\n"
        "cylinder where the heads rest. 1 MB is 1,000,000 bytes.\n"
        "* From type 24 up each firmware has its own table: hold these numbers against\n"
        "the machine's set-up before you trust one.\n");
}

TEST_CASE("a long table is cut, and says by how much") {
  const std::string text = text_for({306, 4, 17}, nullptr, 2);
  CHECK(has(text, "  and 2 more that lose as much or more: --all shows them\n"));
  CHECK_FALSE(has(text, "25*"));
  CHECK_FALSE(has(text, "From type 24"));
}

TEST_CASE("a disk that no type fits is told so") {
  CHECK(text_for({1, 1, 1}) ==
        "Disk: 1 cylinder, 1 head, 1 sector a track: 0.0 MB (0.0 MiB)\n"
        "No type of the common table fits: each would run past the disk's end.\n");
}

TEST_CASE("a layout's places for disks by hand come with what to type") {
  const std::string text = text_for({820, 6, 26}, "at+disks-26");
  CHECK(has(text,
            "  first disk, for \"rtcmend amend\":\n"
            "    --set disk_0_type=47 --set disk_0_cylinders=820 --set disk_0_heads=6\n"
            "    --set disk_0_sectors=26 --set disk_0_landing_zone=820\n"));
  CHECK(widest(text) <= 80);
  CHECK(has(text_for({5000, 4, 17}, "at+disks-1d"), "first disk: it does not go in"));
}

TEST_CASE("as JSON every type comes with its numbers in bytes") {
  const Disk disk = disk_of({615, 4, 17});
  const DriveAdvice advice = advise_on_drive(disk, nullptr);
  const Json json = drives_json({disk, advice, nullptr});
  CHECK(json["table"] == "common");
  CHECK(json["capacity"] == 21411840);
  CHECK(json["matches"][0]["type"] == 2);
  CHECK(json["matches"][0]["capacity"] == 21411840);
  CHECK(json["matches"][0]["fit"] == "exact");
  CHECK(json["matches"][1]["write_precompensation"].is_null());
  CHECK(json["matches"][2]["fit"] == "inside");
  CHECK(json["matches"][2]["lost"] == 104448);
  CHECK(json["by_hand"].empty());
}

TEST_CASE("the JSON of drives names the table and gives the settings by hand as numbers") {
  const Layout layout = built_in_layout("at+disks-1b-short");
  const Disk disk = disk_of({1024, 8, 17});
  const DriveAdvice advice = advise_on_drive(disk, &layout);
  const Json json = drives_json({disk, advice, &layout});
  CHECK(json["table"] == "common");
  CHECK(json["capacity"] == 71303168);
  REQUIRE(json["by_hand"].size() == 2);
  CHECK(json["by_hand"][0]["disk"] == "first disk");
  CHECK(json["by_hand"][0]["set"]["disk_0_cylinders"] == 1024);
  CHECK(json["by_hand"][0]["set"]["disk_0_heads"] == 8);
  CHECK(json["by_hand"][0]["problem"].is_null());
}

TEST_CASE("a disk that does not go into a layout's block is told why, in JSON as well") {
  DriveAdvice advice;
  advice.by_hand = {{"first disk", 47, {{"disk_0_cylinders", Value(1024)}}, ""},
                    {"second disk", std::nullopt, {}, "17 is not among 0-15"}};
  const Layout layout = built_in_layout("at+disks-1b-short");
  const Disk disk = disk_of({1024, 8, 17});
  const Json json = drives_json({disk, advice, &layout});
  CHECK(json["by_hand"][0]["type"] == 47);
  CHECK(json["by_hand"][1] == Json::parse(R"({"disk": "second disk", "type": null, "set": {},
                        "problem": "17 is not among 0-15"})"));
  CHECK(has(drives_text({disk, advice, &layout}, 10, Ink()),
            "  second disk: it does not go in (17 is not among 0-15)\n"));
}

TEST_CASE("a layout with a table of its own is named as the one that was asked") {
  Layout layout = built_in_layout("at");
  layout.id = "heron-286";
  layout.drive_types = {{2, 615, 4, 17, 300, 615}};
  const Disk disk = disk_of({615, 4, 17});
  const DriveAdvice own = advise_on_drive(disk, &layout);
  CHECK(has(drives_text({disk, own, &layout}, 10, Ink()),
            "Types of the table of heron-286 that it can be used with\n"));
  CHECK(drives_json({disk, own, &layout})["table"] == "heron-286");
  const Disk small = disk_of({100, 2, 17});
  const DriveAdvice none = advise_on_drive(small, &layout);
  CHECK(has(drives_text({small, none, &layout}, 10, Ink()),
            "No type of the table of heron-286 fits: each would run past the disk's end.\n"));
}
