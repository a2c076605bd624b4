#include <cstdlib>
#include <fcntl.h>
#include <filesystem>
#include <spawn.h>
#include <sys/wait.h>
#include <system_error>
#include <unistd.h>

#include "base/desktop.h"

extern char** environ;

namespace rtcmend::desktop {

std::string program_folder() {
  std::error_code unsaid;
  const auto program = std::filesystem::read_symlink("/proc/self/exe", unsaid);
  return unsaid ? std::string() : program.parent_path().string() + "/";
}

namespace {

/// xdg-open comes back as soon as it has handed the file over; a browser of one's own may stay.
bool has_failed(pid_t child) {
  constexpr int tries = 20;
  constexpr timespec between{0, 50'000'000};
  for (int i = 0; i < tries; ++i) {
    int status = 0;
    if (::waitpid(child, &status, WNOHANG) == child)
      return !WIFEXITED(status) || WEXITSTATUS(status) != 0;
    ::nanosleep(&between, nullptr);
  }
  return false;
}

}  // namespace

bool show_in_browser(const std::string& path) {
  const char* own = std::getenv("BROWSER");
  std::string program = own != nullptr && *own != '\0' ? own : "xdg-open";
  std::string address = std::filesystem::absolute(path).string();
  char* const words[] = {program.data(), address.data(), nullptr};
  posix_spawn_file_actions_t quiet;
  ::posix_spawn_file_actions_init(&quiet);
  // What a browser tells its terminal is not this program's output.
  ::posix_spawn_file_actions_addopen(&quiet, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  ::posix_spawn_file_actions_addopen(&quiet, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const int failed = ::posix_spawnp(&child, words[0], &quiet, nullptr, words, environ);
  ::posix_spawn_file_actions_destroy(&quiet);
  return failed == 0 && !has_failed(child);
}

}  // namespace rtcmend::desktop
