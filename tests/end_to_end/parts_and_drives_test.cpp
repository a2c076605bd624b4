#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;
using nlohmann::json;
using Words = std::vector<std::string>;

TEST_CASE("drives lists types for a geometry, as a table and as JSON") {
  const Workbench bench;
  // TechHelp: type 2 is 615 x 4 x 17.
  const Ran text = bench.run({"drives", "--cylinders", "615", "--heads", "4", "--sectors", "17"});
  CHECK(text.code == 0);
  CHECK(text.out.find("    2        615      4       17       300      615    21.4 MB  exact") !=
        std::string::npos);
  const Ran machine = bench.run({"drives", "--capacity", "42.8M", "--json"});
  CHECK(machine.code == 0);
  const json found = json::parse(machine.out);
  // 17 is 977 x 5 x 17, 27 is 698 x 7 x 17: it wastes less, but few tables have it so.
  CHECK(found["matches"][0]["type"] == 17);
  CHECK(found["matches"][0]["fit"] == "inside");
  CHECK(found["matches"][0]["capacity"] == 42519040);
  CHECK(found["matches"][1]["type"] == 27);
  CHECK(found["matches"][1]["unsure"] == true);
}

TEST_CASE("drives says what a type is, in the layout's own table where there is one") {
  const Workbench bench;
  // Measured: type 39 of the CRC class is 769 x 3 x 36; the common table ends before it.
  const json found =
      json::parse(bench.run({"drives", "--type", "39", "--layout", "crc+slots-19", "--json"}).out);
  REQUIRE(found["matches"].size() == 1);
  CHECK(found["matches"][0]["capacity"] == 769 * 3 * 36 * 512);
  // Type 28 has 976 cylinders (TechHelp prints 967 beside a landing zone of 977).
  CHECK(bench.run({"drives", "--type", "28"}).out.find("   28*       976") != std::string::npos);
  CHECK(complains(bench.run({"drives", "--type", "15"}), "--type", "has no type 15"));
  CHECK(bench.run({"drives", "--type", "47"}).err.find("entered by hand") != std::string::npos);
}

TEST_CASE("drives refuses half a disk, two disks and none") {
  const Workbench bench;
  CHECK(complains(bench.run({"drives", "--heads", "4"}), "drives", "go together"));
  CHECK(complains(bench.run(Words{"drives"}), "drives", "it needs a disk"));
  CHECK(complains(bench.run({"drives", "--capacity", "40M", "--cylinders", "615", "--heads", "4",
                             "--sectors", "17"}),
                  "--capacity", "already"));
  CHECK(complains(bench.run({"drives", "--cylinders", "0", "--heads", "4", "--sectors", "17"}),
                  "--cylinders", "0 is not a number of cylinders"));
  CHECK(complains(bench.run({"drives", "--capacity", "40"}), "--capacity", "not a capacity"));
  CHECK(bench.run({"drives", "--capacity", "1K"}).code == 1);
}

TEST_CASE("chips knows a part, and helps with a mistyped one") {
  const Workbench bench;
  CHECK(bench.run(Words{"chips"}).out.find("DS12C887A") != std::string::npos);
  CHECK(bench.run(Words{"chips", "ds12887a"}).code == 0);
  const Ran json_run = bench.run({"chips", "DS12887A", "--json"});
  CHECK(json::parse(json_run.out)["parts"][0]["ram_clear_pin"] == 21);
  const Ran wrong = bench.run(Words{"chips", "DS1288"});
  CHECK(wrong.code == 2);
  CHECK(wrong.err.find("did you mean DS1285 or DS1287") != std::string::npos);
}

TEST_CASE("compose tells what the part changes, and refuses one that is too small") {
  const Workbench bench;
  bench.put("machine.json", R"({"layout": "at+sum-40-7d", "set": {"floppy_a": "1.44M"}})");
  const Ran large = bench.run({"compose", "machine.json", "--part", "DS12887A", "-o", "new.bin"});
  CHECK(large.code == 0);
  CHECK(large.out.find("part-ram-clear") != std::string::npos);
  const Ran small = bench.run({"compose", "machine.json", "--part", "DS1287", "-o", "small.bin"});
  CHECK(small.code == 2);
  CHECK(small.err.find("part-too-small") != std::string::npos);
  CHECK_FALSE(bench.has("small.bin"));
}

TEST_CASE("verify tells what the part changes") {
  const Workbench bench;
  bench.put("slots.bin", crc_64_bytes());
  const Ran clash = bench.run({"verify", "slots.bin", "--part", "DS12C887", "--json"});
  CHECK(clash.code == 0);
  CHECK(clash.out.find("\"part-century-clash\"") != std::string::npos);
  std::vector<std::uint8_t> large = at_64_bytes();
  large.resize(128);
  large[0x45] = large[0x7F] = 0x21;
  bench.put("large.bin", large);
  const Ran small =
      bench.run({"verify", "large.bin", "--layout", "at+sum-40-7d", "--part", "DS1287", "--json"});
  CHECK(small.code == 1);
  CHECK(json::parse(small.out)["sound"] == false);
  CHECK(
      complains(bench.run({"verify", "large.bin", "--layout", "at+sum-40-7d", "--part", "DS1288"}),
                "--part", "no part"));
}

TEST_CASE("the best twelve types are shown, or all of them when asked") {
  const Workbench bench;
  const auto types = [&](std::vector<std::string> words) {
    std::size_t count = 0;
    std::istringstream lines(bench.run(words).out);
    for (std::string line; std::getline(lines, line);) count += line.find(" MB  inside") < 80;
    return count;
  };
  const std::size_t in_all =
      json::parse(bench.run({"drives", "--capacity", "100M", "--json"}).out)["matches"].size();
  CHECK(in_all > 12);
  CHECK(types({"drives", "--capacity", "100M"}) == 12);
  CHECK(types({"drives", "--capacity", "100M", "--all"}) == in_all);
}

TEST_CASE("a disk that no type fits may still be entered by hand, where the layout has a place") {
  const Workbench bench;
  const Words disk = {"drives", "--cylinders", "20", "--heads", "2", "--sectors", "17"};
  CHECK(bench.run(disk).code == 1);
  Words with_block = disk;
  with_block.insert(with_block.end(), {"--layout", "at+disks-1b"});
  const Ran ran = bench.run(with_block);
  CHECK(ran.code == 0);
  CHECK(ran.out.find("--set disk_0_type=47 --set disk_0_cylinders=20 --set disk_0_heads=2") !=
        std::string::npos);
  // Its bytes take 16 heads at most (RBIL61 CMOS 1Bh).
  with_block[4] = "17";
  CHECK(bench.run(with_block).code == 1);
}

TEST_CASE("the wiring's page keeps its lines") {
  const Workbench bench;
  REQUIRE(bench.run({"board", "wiring", "-o", "wiring.html"}).code == 0);
  const std::string page = bench.get("wiring.html");
  CHECK(page.find("\\x0A") == std::string::npos);
  CHECK(page.find("<pre>Cautions\n") != std::string::npos);
  CHECK(page.find("\n    10  AD6              D6     220 ohm in the wire\n") != std::string::npos);
}
