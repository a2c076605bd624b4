// The real program at one end of a pseudo-terminal, the simulated board at the other, in real time.
#include <catch2/catch.hpp>
#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <string>
#include <sys/wait.h>
#include <termios.h>
#include <thread>
#include <unistd.h>
#include <vector>

#include "base/files.h"
#include "board/firmware/protocol.h"
#include "board/line.h"
#include "support/run_program.h"
#include "support/sound_images.h"
#include "support/temporary_folder.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

/// A board on a terminal of its own, until the end of the test.
class BoardOnTerminal {
 public:
  explicit BoardOnTerminal(const TemporaryFolder& folder)
      : complaints_((folder / "complaints").string()) {
    int in[2], out[2];
    REQUIRE(pipe(in) == 0);
    REQUIRE(pipe(out) == 0);
    child_ = fork();
    if (child_ == 0) {
      dup2(in[0], 0);
      dup2(out[1], 1);
      dup2(open(complaints_.c_str(), O_WRONLY | O_CREAT, 0600), 2);
      close(in[1]);
      execl(RTCMEND_BOARD_ON_TERMINAL, "board_on_terminal", RTCMEND_FIRMWARE, nullptr);
      _exit(127);
    }
    close(in[0]);
    close(out[1]);
    input_ = in[1];
    char byte = 0;
    while (read(out[0], &byte, 1) == 1 && byte != '\n') port_ += byte;
    close(out[0]);
  }
  ~BoardOnTerminal() { end(); }
  BoardOnTerminal(const BoardOnTerminal&) = delete;
  BoardOnTerminal& operator=(const BoardOnTerminal&) = delete;

  const std::string& port() const { return port_; }
  /// Ends it; what was out of order on its bus.
  std::string end() {
    if (child_ <= 0) return {};
    close(input_);
    waitpid(child_, nullptr, 0);
    child_ = 0;
    std::string text;
    const int file = open(complaints_.c_str(), O_RDONLY);
    char bytes[512];
    for (ssize_t count = 0; (count = read(file, bytes, sizeof bytes)) > 0;)
      text.append(bytes, static_cast<std::size_t>(count));
    close(file);
    return text;
  }

 private:
  std::string complaints_, port_;
  pid_t child_ = 0;
  int input_ = -1;
};

Ran rtcmend_in(const TemporaryFolder& folder, std::vector<std::string> words) {
  Start start;
  start.program = RTCMEND_PROGRAM;
  start.arguments = std::move(words);
  start.folder = folder.path().string();
  return run_program(start);
}

void put(const TemporaryFolder& folder, const std::string& name,
         const std::vector<std::uint8_t>& bytes) {
  write_whole((folder / name).string(), std::string(bytes.begin(), bytes.end()), {});
}

}  // namespace

TEST_CASE("the program writes a chip over a terminal, reads it back, and proves that it holds",
          "[long]") {
  const TemporaryFolder folder;
  BoardOnTerminal board(folder);
  put(folder, "new.bin", at_64_bytes());
  const Ran written = rtcmend_in(folder, {"board", "write", "new.bin", "-o", "before.bin",
                                          "--set-clock", "--layout", "at", "--port", board.port()});
  INFO(written.out << written.err);
  CHECK(written.code == 0);
  CHECK(written.out.find("Equal in everything that matters.") != std::string::npos);
  CHECK(read_whole((folder / "before.bin").string()).size() == 128);
  const Ran held = rtcmend_in(folder, {"board", "hold", "-o", "held.bin", "--off", "1s", "--yes",
                                       "--layout", "at", "--port", board.port()});
  INFO(held.out << held.err);
  CHECK(held.code == 0);
  CHECK(held.out.find("Kept: every byte that matters came through 1 s") != std::string::npos);
  const std::string chip = read_whole((folder / "held.bin").string());
  const auto wanted = at_64_bytes();
  for (std::size_t at = 14; at < 64; ++at) CHECK(static_cast<std::uint8_t>(chip[at]) == wanted[at]);
  CHECK(board.end().empty());
}

namespace {

/// The outer end of a pseudo-terminal with somebody at it who says one thing, or nothing.
class Stranger {
 public:
  explicit Stranger(const std::string& says = {})
      : outside_(posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC)) {
    REQUIRE(outside_ >= 0);
    REQUIRE(grantpt(outside_) == 0);
    REQUIRE(unlockpt(outside_) == 0);
    port_ = ptsname(outside_);
    // Kept open and raw: else the terminal would answer with what it is told.
    inside_ = open(port_.c_str(), O_RDWR | O_NOCTTY | O_CLOEXEC);
    termios how{};
    tcgetattr(inside_, &how);
    cfmakeraw(&how);
    tcsetattr(inside_, TCSANOW, &how);
    REQUIRE(write(outside_, says.data(), says.size()) == static_cast<ssize_t>(says.size()));
  }
  ~Stranger() {
    close(inside_);
    close(outside_);
  }
  Stranger(const Stranger&) = delete;
  Stranger& operator=(const Stranger&) = delete;
  const std::string& port() const { return port_; }

 private:
  int outside_, inside_ = -1;
  std::string port_;
};

/// A writing at this port is refused so, and neither chip nor disk sees a byte of it.
void check_refused(const std::string& port, int code, const std::string& words) {
  const TemporaryFolder folder;
  put(folder, "new.bin", at_64_bytes());
  const Ran ran = rtcmend_in(
      folder, {"board", "write", "new.bin", "-o", "before.bin", "--layout", "at", "--port", port});
  INFO(ran.out << ran.err);
  CHECK(ran.code == code);
  CHECK(ran.err.find(words) != std::string::npos);
  CHECK(ran.out.empty());
  CHECK(access((folder / "before.bin").c_str(), F_OK) != 0);
}

}  // namespace

TEST_CASE("a board that is absent ends the program with 3, and nothing is written") {
  check_refused("/dev/no-such-port", 3, "/dev/no-such-port: there is no such port");
}

TEST_CASE("a board that is deaf ends the program with 2, and nothing is written", "[long]") {
  const Stranger deaf;
  check_refused(deaf.port(), 2, deaf.port() + ": nothing answers on this port");
}

TEST_CASE("another program's board ends the program with 2, and nothing is written", "[long]") {
  const Stranger other("Ready.\r\n");
  check_refused(other.port(), 2, "what answers on this port is not this program's firmware");
}

TEST_CASE("a board of another version ends the program with 2, and nothing is written") {
  const std::vector<std::uint8_t> hello{2, 0, 0, 0x13, 0x88, 0, 0, 0, 0};
  const Stranger newer(board_line(BOARD_GREETING, hello));
  check_refused(newer.port(), 2, "speaks version 2 of the protocol, this program version 1");
}

TEST_CASE("a board that is busy ends the program with 2, and nothing is written", "[long]") {
  const TemporaryFolder folder;
  BoardOnTerminal board(folder);
  const int port = open(board.port().c_str(), O_RDWR | O_NOCTTY);
  const auto wait_for_a_line = [&] {
    for (char byte = 0; byte != '\n';) REQUIRE(read(port, &byte, 1) == 1);
  };
  wait_for_a_line();  // the greeting: before it the board hears nothing
  // What a program that is gone meanwhile had asked for: supply, and a rest of four minutes.
  for (const std::vector<std::uint8_t>& request :
       {std::vector<std::uint8_t>{1, BOARD_ON}, std::vector<std::uint8_t>{2, BOARD_REST, 0, 240}}) {
    const std::string line = board_line(BOARD_REQUEST, request);
    REQUIRE(write(port, line.data(), line.size()) == static_cast<ssize_t>(line.size()));
    wait_for_a_line();
  }
  close(port);
  check_refused(board.port(), 2, "it keeps the chip without supply for ");
}

TEST_CASE("Ctrl-C leaves the chip off", "[long]") {
  const TemporaryFolder folder;
  BoardOnTerminal board(folder);
  const pid_t program = fork();
  if (program == 0) {
    const int quiet = open("/dev/null", O_WRONLY);
    dup2(quiet, 1);
    dup2(quiet, 2);
    execl(RTCMEND_PROGRAM, "rtcmend", "board", "clock", "--for", "10m", "--port",
          board.port().c_str(), nullptr);
    _exit(127);
  }
  std::this_thread::sleep_for(std::chrono::milliseconds(1500));
  kill(program, SIGINT);
  int status = 0;
  waitpid(program, &status, 0);
  CHECK(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 3);
  CHECK(board.end().empty());  // "the chip was left under power" else
}
