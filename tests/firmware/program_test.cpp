// The real program at one end of a pseudo-terminal, the simulated board at the other, in real time.
#include <catch2/catch.hpp>
#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <string>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>
#include <vector>

#include "base/files.h"
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
