#include "base/files.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "base/error.h"
#include "support/temporary_folder.h"

using namespace rtcmend;
namespace fs = std::filesystem;

namespace {

void put(const fs::path& path, const std::string& content) {
  std::ofstream(path, std::ios::binary) << content;
}

std::string get(const fs::path& path) {
  std::ostringstream content;
  content << std::ifstream(path, std::ios::binary).rdbuf();
  return content.str();
}

std::size_t files_in(const fs::path& folder) {
  return static_cast<std::size_t>(
      std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

Refusal refusal_of(const std::string& path, const WriteRules& rules) {
  try {
    write_whole(path, "new", rules);
  } catch (const Error& error) {
    return error.refusal();
  }
  FAIL("nothing was refused");
  return Refusal::input;
}

}  // namespace

TEST_CASE("a file is read whole, bytes of every value included") {
  const TemporaryFolder folder;
  const std::string content("\0\xFF\r\nx", 5);
  put(folder / "dump.bin", content);
  CHECK(read_whole((folder / "dump.bin").string()) == content);
}

TEST_CASE("what is no dump file is refused before it is read") {
  const TemporaryFolder folder;
  put(folder / "empty", "");
  put(folder / "large", "");
  fs::resize_file(folder / "large", 100'000'000);
  for (const char* name : {"empty", "large", "missing", "."})
    CHECK_THROWS_AS(read_whole((folder / name).string()), Error);
}

TEST_CASE("a new file appears whole and alone") {
  const TemporaryFolder folder;
  write_whole((folder / "out.bin").string(), "bytes", {});
  CHECK(get(folder / "out.bin") == "bytes");
  CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("an existing file stays unless its replacement is asked for") {
  const TemporaryFolder folder;
  const std::string path = (folder / "out.bin").string();
  put(path, "old");
  CHECK(refusal_of(path, {}) == Refusal::input);
  CHECK(get(path) == "old");
  write_whole(path, "new", {.replace = true, .inputs = {}});
  CHECK(get(path) == "new");
  CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("an input is never written over, whatever name it goes by") {
  const TemporaryFolder folder;
  put(folder / "in.bin", "old");
  fs::create_symlink(folder / "in.bin", folder / "link");
  fs::create_hard_link(folder / "in.bin", folder / "twin");
  const WriteRules rules{.replace = true, .inputs = {(folder / "in.bin").string()}};
  for (const char* name : {"in.bin", "link", "twin", "./in.bin"})
    CHECK(refusal_of((folder / name).string(), rules) == Refusal::input);
  CHECK(get(folder / "in.bin") == "old");
}

TEST_CASE("a link stays a link and the file behind it is replaced") {
  const TemporaryFolder folder;
  put(folder / "real.bin", "old");
  fs::create_symlink("real.bin", folder / "link");
  write_whole((folder / "link").string(), "new", {.replace = true, .inputs = {}});
  CHECK(fs::is_symlink(folder / "link"));
  CHECK(get(folder / "real.bin") == "new");
}

TEST_CASE("a replaced file keeps its mode") {
  const TemporaryFolder folder;
  put(folder / "out.bin", "old");
  fs::permissions(folder / "out.bin", fs::perms(0640));
  write_whole((folder / "out.bin").string(), "new", {.replace = true, .inputs = {}});
  CHECK(fs::status(folder / "out.bin").permissions() == fs::perms(0640));
}

TEST_CASE("a file system that says no is told apart from wrong use") {
  const TemporaryFolder folder;
  CHECK(refusal_of((folder / "no" / "such" / "out.bin").string(), {}) == Refusal::file_system);
  CHECK(refusal_of("/dev/full", {}) == Refusal::file_system);
  CHECK(files_in(folder.path()) == 0);
}
