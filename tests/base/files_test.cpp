#include "base/files.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

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

TEST_CASE("a replaced file loses what would let others run it as somebody else") {
  const TemporaryFolder folder;
  const std::string path = (folder / "out.bin").string();
  put(folder / "out.bin", "old");
  REQUIRE(::chmod(path.c_str(), 04755) == 0);
  write_whole(path, "new", {.replace = true, .inputs = {}});
  struct stat now {};
  REQUIRE(::stat(path.c_str(), &now) == 0);
  CHECK((now.st_mode & 07777) == 0755);
}

TEST_CASE("a replaced file keeps its owner and its group, where one may give files away") {
  if (::geteuid() != 0) return;
  const TemporaryFolder folder;
  const std::string path = (folder / "out.bin").string();
  put(folder / "out.bin", "old");
  REQUIRE(::chown(path.c_str(), 4321, 8765) == 0);
  REQUIRE(::chmod(path.c_str(), 06750) == 0);
  write_whole(path, "new", {.replace = true, .inputs = {}});
  struct stat now {};
  REQUIRE(::stat(path.c_str(), &now) == 0);
  CHECK(now.st_uid == 4321);
  CHECK(now.st_gid == 8765);
  CHECK((now.st_mode & 07777) == 0750);
  CHECK(get(folder / "out.bin") == "new");
}

TEST_CASE("a file system that says no is told apart from wrong use") {
  const TemporaryFolder folder;
  CHECK(refusal_of((folder / "no" / "such" / "out.bin").string(), {}) == Refusal::file_system);
  CHECK(refusal_of("/dev/full", {}) == Refusal::file_system);
  CHECK(files_in(folder.path()) == 0);
}

TEST_CASE("a file that the system gives no bytes of is told, however it is read") {
  // Linux: the first page of a process is never there, so reading it fails.
  const std::string broken = "/proc/self/mem";
  const auto refusal = [&](auto&& read) {
    try {
      read();
    } catch (const Error& error) {
      CHECK(error.where() == broken);
      CHECK(error.message() == "Input/output error");
      return error.refusal();
    }
    FAIL("nothing was refused");
    return Refusal::input;
  };
  CHECK(refusal([&] { read_whole(broken); }) == Refusal::file_system);
  CHECK(refusal([&] { read_found(broken); }) == Refusal::input);
  CHECK(refusal([&] { PieceReader(broken).next(64); }) == Refusal::file_system);
}

TEST_CASE("what vanished between its listing and its reading is refused by name") {
  CHECK_THROWS_WITH(read_found("/no/such.bin"), "/no/such.bin: No such file or directory");
  CHECK_THROWS_WITH(PieceReader("/no/such.bin"), "/no/such.bin: No such file or directory");
}

TEST_CASE("a found file is held to the same bounds as one that was named") {
  const TemporaryFolder folder;
  put(folder / "empty", "");
  put(folder / "large", std::string(10000, 'x'));
  CHECK_THROWS_AS(read_found((folder / "empty").string()), Error);
  CHECK_THROWS_AS(read_found((folder / "large").string(), 9999), Error);
  CHECK(read_found((folder / "large").string(), 10000).size() == 10000);
}

TEST_CASE("pieces come in their order, the last one short") {
  const TemporaryFolder folder;
  put(folder / "all", "abcdefgh");
  PieceReader reader((folder / "all").string());
  CHECK(reader.next(3) == "abc");
  CHECK(reader.next(3) == "def");
  CHECK(reader.next(3) == "gh");
  CHECK(reader.next(3).empty());
}

TEST_CASE(
    "an output without a name, or a folder, is refused, and standard output is always allowed") {
  CHECK_THROWS_WITH(check_output("", {}), "-o: the output has no name");
  CHECK_NOTHROW(check_output("-", {}));
  const TemporaryFolder folder;
  const std::string path = folder.path().string();
  CHECK_THROWS_WITH(check_output(path, {.replace = true, .inputs = {}}), path + ": it is a folder");
}

TEST_CASE("a socket takes no image") {
  const TemporaryFolder folder;
  const std::string path = (folder / "socket").string();
  struct sockaddr_un address {};
  address.sun_family = AF_UNIX;
  path.copy(address.sun_path, sizeof address.sun_path - 1);
  const int socket = ::socket(AF_UNIX, SOCK_STREAM, 0);
  REQUIRE(::bind(socket, reinterpret_cast<const struct sockaddr*>(&address), sizeof address) == 0);
  CHECK(refusal_of(path, {}) == Refusal::file_system);
  ::close(socket);
}
