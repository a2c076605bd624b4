// Serial ports of this computer that cannot be used, and why: pseudo-terminals stand in for them.
#ifndef _WIN32
#include "board/port.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fcntl.h>
#include <fstream>
#include <string>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/error.h"
#include "support/temporary_folder.h"

using namespace rtcmend;

namespace {

/// The outer end of a pseudo-terminal.
class Terminal {
 public:
  Terminal() : outside_(posix_openpt(O_RDWR | O_NOCTTY)) {
    REQUIRE(outside_ >= 0);
    REQUIRE(grantpt(outside_) == 0);
    REQUIRE(unlockpt(outside_) == 0);
    name_ = ptsname(outside_);
  }
  ~Terminal() { hang_up(); }
  Terminal(const Terminal&) = delete;
  Terminal& operator=(const Terminal&) = delete;

  const std::string& name() const { return name_; }
  void hang_up() {
    if (outside_ >= 0) close(outside_);
    outside_ = -1;
  }
  std::string hears() const {
    char bytes[64];
    const auto count = read(outside_, bytes, sizeof bytes);
    return {bytes, static_cast<std::size_t>(count > 0 ? count : 0)};
  }
  void says(std::string_view text) const {
    REQUIRE(write(outside_, text.data(), text.size()) == static_cast<ssize_t>(text.size()));
  }

 private:
  int outside_;
  std::string name_;
};

/// What opening refuses with, and how.
std::string refusal_of(const std::string& name) {
  try {
    Port::open(name);
  } catch (const Error& error) {
    return (error.refusal() == Refusal::file_system ? "3: " : "2: ") + error.message();
  }
  return {};
}

/// The same for a user who is nobody: what holds a port off from others does not hold off root.
std::string nobody_is_refused(const std::string& name) {
  int way[2];
  REQUIRE(pipe(way) == 0);
  const pid_t child = fork();
  if (child == 0) {
    constexpr uid_t nobody = 65534;
    if (getuid() == 0 && setuid(nobody) != 0) _exit(1);
    const std::string said = refusal_of(name);
    _exit(write(way[1], said.data(), said.size()) < 0 ? 1 : 0);
  }
  close(way[1]);
  char bytes[256];
  const auto count = read(way[0], bytes, sizeof bytes);
  close(way[0]);
  waitpid(child, nullptr, 0);
  return {bytes, static_cast<std::size_t>(count > 0 ? count : 0)};
}

}  // namespace

TEST_CASE("a port that is not there is named with where to look") {
  CHECK(refusal_of("/dev/no-such-port") == "3: there is no such port");
}

TEST_CASE("a file that is no serial port is refused") {
  const TemporaryFolder folder;
  const std::string file = (folder / "file").string();
  std::ofstream(file) << "not a port";
  CHECK(refusal_of(file) == "2: this is no serial port");
}

TEST_CASE("a port that another program has is refused") {
  const Terminal terminal;
  REQUIRE(chmod(terminal.name().c_str(), 0666) == 0);
  const auto taken = Port::open(terminal.name());
  CHECK(nobody_is_refused(terminal.name()) == "3: another program uses this port");
}

TEST_CASE("a port that one may not use is refused with the group to become a member of") {
  const Terminal terminal;
  REQUIRE(chmod(terminal.name().c_str(), 0) == 0);
  CHECK(nobody_is_refused(terminal.name()) == "3: you may not use this port");
}

TEST_CASE("bytes go over a port as they are, in both directions") {
  const Terminal terminal;
  const auto port = Port::open(terminal.name());
  port->write("\n\r\x03\x7F");
  CHECK(terminal.hears() == "\n\r\x03\x7F");
  terminal.says("\r\n\x11\x13");
  CHECK(port->read(std::chrono::milliseconds(1000)) == "\r\n\x11\x13");
  CHECK(port->read(std::chrono::milliseconds(0)).empty());
}

TEST_CASE("a port that is gone says so") {
  Terminal terminal;
  const auto port = Port::open(terminal.name());
  terminal.hang_up();
  try {
    port->read(std::chrono::milliseconds(1000));
    FAIL("it read from a port that is gone");
  } catch (const Error& error) {
    CHECK(error.message() == "the port is gone");
    CHECK(error.refusal() == Refusal::file_system);
  }
}
#endif
