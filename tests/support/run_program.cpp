#include "support/run_program.h"

#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <stdexcept>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace rtcmend::test {

namespace {

/// A nameless file that holds one of the program's streams. Unlike a pipe it never fills up.
class Stream {
 public:
  Stream() {
    std::string path = "/tmp/rtcmend-stream-XXXXXX";
    number_ = ::mkostemp(path.data(), O_CLOEXEC);
    if (number_ < 0) throw std::runtime_error("cannot make a file in /tmp");
    ::unlink(path.c_str());
  }
  Stream(const Stream&) = delete;
  Stream& operator=(const Stream&) = delete;
  ~Stream() { ::close(number_); }

  int number() const { return number_; }
  void fill(const std::string& text) {
    for (std::size_t done = 0; done < text.size();) {
      const ssize_t count = ::write(number_, text.data() + done, text.size() - done);
      if (count <= 0) throw std::runtime_error("cannot write the program's input");
      done += static_cast<std::size_t>(count);
    }
    ::lseek(number_, 0, SEEK_SET);
  }
  std::string content() {
    std::string text;
    char piece[4096];
    ::lseek(number_, 0, SEEK_SET);
    while (const ssize_t count = ::read(number_, piece, sizeof piece)) {
      if (count < 0) throw std::runtime_error("cannot read the program's output");
      text.append(piece, static_cast<std::size_t>(count));
    }
    return text;
  }

 private:
  int number_;
};

/// In the child: never returns.
[[noreturn]] void become(const Start& start, int in, int out, int err) {
  std::vector<char*> arguments = {const_cast<char*>(start.program.c_str())};
  for (const std::string& argument : start.arguments)
    arguments.push_back(const_cast<char*>(argument.c_str()));
  arguments.push_back(nullptr);
  for (const auto& [name, value] : start.environment) ::setenv(name.c_str(), value.c_str(), 1);
  if (!start.output_to.empty()) out = ::open(start.output_to.c_str(), O_WRONLY);
  if (!start.folder.empty() && ::chdir(start.folder.c_str()) != 0) ::_exit(127);
  ::dup2(in, STDIN_FILENO);
  ::dup2(out, STDOUT_FILENO);
  ::dup2(err, STDERR_FILENO);
  if (start.largest_file) {
    const struct rlimit limit = {*start.largest_file, *start.largest_file};
    ::setrlimit(RLIMIT_FSIZE, &limit);
  }
  ::execv(start.program.c_str(), arguments.data());
  ::_exit(127);
}

}  // namespace

Ran run_program(const Start& start) {
  Stream in, out, err;
  in.fill(start.input);
  const pid_t child = ::fork();
  if (child < 0) throw std::runtime_error("cannot start a process");
  if (child == 0) become(start, in.number(), out.number(), err.number());
  if (start.killed_after) {
    ::usleep(*start.killed_after);
    ::kill(child, SIGKILL);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  if (WIFEXITED(status) && WEXITSTATUS(status) == 127)
    throw std::runtime_error("cannot start " + start.program);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, out.content(), err.content()};
}

}  // namespace rtcmend::test
