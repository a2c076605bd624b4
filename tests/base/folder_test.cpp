#include "base/folder.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "base/error.h"
#include "support/temporary_folder.h"

using namespace rtcmend;
namespace fs = std::filesystem;

TEST_CASE(
    "the files of a folder come by name, with their times; the hidden and folders are left out") {
  const TemporaryFolder folder;
  for (const char* name : {"b.bin", "a.bin", ".hidden"}) std::ofstream(folder / name).put('x');
  fs::create_directory(folder / "c");
  fs::create_symlink("nowhere", folder / "dangling");
  fs::create_symlink("a.bin", folder / "link");
  // 2031-05-14 09:30:00 UTC, by date -u -d ... +%s.
  const auto time = fs::file_time_type::clock::from_sys(
      std::chrono::sys_seconds(std::chrono::seconds(1936517400)));
  fs::last_write_time(folder / "a.bin", time);
  const auto files = files_in(folder.path().string());
  REQUIRE(files.size() == 3);
  CHECK(files[0].name == "a.bin");
  CHECK(files[0].path == (folder / "a.bin").string());
  CHECK(files[0].modified == 1936517400);
  CHECK(files[1].name == "b.bin");
  CHECK(files[2].name == "link");
}

TEST_CASE("what is no folder is refused as what it is") {
  const TemporaryFolder folder;
  std::ofstream(folder / "file").put('x');
  CHECK_THROWS_WITH(files_in((folder / "file").string()),
                    (folder / "file").string() + ": it is not a folder");
  CHECK_THROWS_WITH(files_in((folder / "none").string()),
                    (folder / "none").string() + ": there is no such folder");
}
