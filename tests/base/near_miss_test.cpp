#include "base/near_miss.h"

#include <catch2/catch.hpp>
#include <fstream>

#include "support/temporary_folder.h"

using namespace rtcmend;

namespace {

void touch(const TemporaryFolder& folder, const std::string& name) {
  std::ofstream(folder / name).put('x');
}

}  // namespace

TEST_CASE("a mistyped file name finds its neighbour in the same folder, folder in front") {
  const TemporaryFolder folder;
  touch(folder, "bramble.bin");
  touch(folder, "notes.txt");
  CHECK(near_file_names((folder / "brambel.bin").string()) ==
        std::vector<std::string>{(folder / "bramble.bin").string()});
  CHECK(near_file_names((folder / "quince.hex").string()).empty());
  CHECK(near_file_names((folder / "no" / "bramble.bin").string()).empty());
}

TEST_CASE("a folder of more than two thousand files is not searched") {
  const TemporaryFolder folder;
  touch(folder, "bramble.bin");
  for (int i = 1; i < 2000; ++i) touch(folder, std::to_string(i));
  const std::string asked = (folder / "brambel.bin").string();
  CHECK(near_file_names(asked).size() == 1);
  touch(folder, "2000");
  CHECK(near_file_names(asked).empty());
}

TEST_CASE("the nearest of a few words, or all of them") {
  const std::vector<std::string> known = {"none", "silicon", "schottky"};
  CHECK(near_or_all("silicone", known) == "silicon");
  CHECK(near_or_all("zener", known) == "none, silicon, schottky");
}
