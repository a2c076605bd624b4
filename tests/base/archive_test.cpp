#include "base/archive.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <unistd.h>

#include "base/error.h"

using namespace rtcmend;

namespace {

/// A folder in which a shell command was run; gone at the end.
struct Made {
  std::filesystem::path path =
      std::filesystem::temp_directory_path() / ("rtcmend-archive-" + std::to_string(::getpid()));
  explicit Made(const std::string& command) {
    std::filesystem::create_directories(path);
    const std::string whole = "cd '" + path.string() + "' && " + command;
    REQUIRE(std::system(whole.c_str()) == 0);
  }
  ~Made() { std::filesystem::remove_all(path); }
  std::string operator/(const char* name) const { return (path / name).string(); }
};

}  // namespace

TEST_CASE("archives are told by the ends of their names, in either case") {
  for (const char* name :
       {"a.tar", "a.TAR.GZ", "x/y.tgz", "b.tar.bz2", "b.tar.xz", "b.tar.zst", "c.Zip"})
    CHECK(is_archive_name(name));
  for (const char* name : {"a.bin", "tar", "zip", "a.gz", "a.tar.txt"})
    CHECK_FALSE(is_archive_name(name));
}

TEST_CASE("the members of a packed tar come in its order, with their bytes") {
  const Made made("printf one > 1; printf two > 2; tar -czf a.tgz 2 1");
  Archive archive(made / "a.tgz");
  const auto first = archive.next(), second = archive.next();
  REQUIRE((first && second));
  CHECK(first->name == "2");
  CHECK(first->content == "two");
  CHECK(second->name == "1");
  CHECK(second->content == "one");
  CHECK_FALSE(archive.next());
}

TEST_CASE("a member that is too large is trouble, and the next one is read") {
  const Made made("head -c 1048577 /dev/zero > big; printf fine > small; tar -cf a.tar big small");
  Archive archive(made / "a.tar");
  const auto big = archive.next(), small = archive.next();
  REQUIRE((big && small));
  CHECK(big->content.empty());
  CHECK(big->trouble == "it is larger than 1048576 bytes");
  CHECK(small->content == "fine");
}

TEST_CASE("an archive that unpacks far beyond its size is not read on") {
  const Made made("head -c 8000000 /dev/zero > big; tar -czf a.tar.gz big");
  Archive patient(made / "a.tar.gz");
  CHECK(patient.next());
  Archive archive(made / "a.tar.gz", {1 << 20, 200});
  CHECK_THROWS_AS(archive.next(), Error);
}

TEST_CASE("a cut archive gives what it has and then an error") {
  const Made made(
      "printf one > 1; head -c 300000 /dev/urandom > 2; tar -cf whole.tar 1 2; "
      "head -c 100000 whole.tar > cut.tar");
  Archive archive(made / "cut.tar");
  CHECK(archive.next()->content == "one");
  CHECK_THROWS_AS(archive.next(), Error);
}

TEST_CASE("what is no archive is refused") {
  const Made made("printf 'nothing of the kind' > a.zip; : > b.tar");
  CHECK_THROWS_AS(Archive(made / "a.zip").next(), Error);
  CHECK_THROWS_AS(Archive(made / "missing.tar"), Error);
  CHECK_THROWS_AS(Archive(made / "b.tar").next(), Error);
}
