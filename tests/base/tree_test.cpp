#include "base/tree.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sys/stat.h>
#include <unistd.h>

#include "base/error.h"

using namespace rtcmend;
namespace fs = std::filesystem;

namespace {

/// A folder that is gone at the end.
struct Folder {
  fs::path path = fs::temp_directory_path() / ("rtcmend-tree-" + std::to_string(::getpid()));
  Folder() { fs::create_directories(path); }
  ~Folder() { fs::remove_all(path); }
  void file(const std::string& name) const {
    fs::create_directories((path / name).parent_path());
    std::ofstream(path / name) << "x";
  }
  std::vector<std::string> walked() const {
    std::vector<std::string> names;
    Tree tree(path.string() + "/");
    while (const auto found = tree.next()) names.push_back(fs::relative(*found, path).string());
    return names;
  }
};

}  // namespace

TEST_CASE("a walk gives files in the order of their names, folders where their name stands") {
  const Folder folder;
  for (const char* name : {"b.bin", "a/z.bin", "a/b/c.bin", "c.bin", "a.bin", "B.bin"})
    folder.file(name);
  CHECK(folder.walked() ==
        std::vector<std::string>{"B.bin", "a/b/c.bin", "a/z.bin", "a.bin", "b.bin", "c.bin"});
}

TEST_CASE("links inside a folder are passed over, so that a circle of them ends") {
  const Folder folder;
  folder.file("real.bin");
  fs::create_directory_symlink(folder.path, folder.path / "again");
  fs::create_symlink("/etc/hostname", folder.path / "elsewhere.bin");
  CHECK(folder.walked() == std::vector<std::string>{"real.bin"});
}

TEST_CASE("an empty folder has no files") {
  const Folder folder;
  CHECK(folder.walked().empty());
}

TEST_CASE("a single file is walked as itself") {
  const Folder folder;
  folder.file("one.bin");
  Tree tree((folder.path / "one.bin").string());
  CHECK(tree.next() == (folder.path / "one.bin").string());
  CHECK(tree.next() == std::nullopt);
}

TEST_CASE("a path that leads nowhere is refused") {
  CHECK_THROWS_AS(Tree("/no/such/folder"), Error);
}

TEST_CASE("a folder that vanished before it was listed is a file-system error, by its name") {
  const Folder folder;
  folder.file("a/one.bin");
  folder.file("b.bin");
  Tree tree(folder.path.string());
  fs::remove_all(folder.path);
  try {
    tree.next();
    FAIL("listed");
  } catch (const Error& error) {
    CHECK(error.refusal() == Refusal::file_system);
    CHECK(error.where() == folder.path.string());
  }
  CHECK(tree.next() == std::nullopt);
}

TEST_CASE("pipes and sockets are no files of a walk") {
  const Folder folder;
  folder.file("real.bin");
  REQUIRE(::mkfifo((folder.path / "pipe").c_str(), 0600) == 0);
  CHECK(folder.walked() == std::vector<std::string>{"real.bin"});
}

TEST_CASE("the root is walked like any folder") {
  Tree tree("/");
  const auto first = tree.next();
  REQUIRE(first);
  CHECK(first->starts_with("/"));
  CHECK_FALSE(first->starts_with("//"));
}
