#include <cerrno>
#include <csignal>
#include <fcntl.h>
#include <filesystem>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/system.h"

namespace rtcmend::system {

void prepare_process() {
  std::signal(SIGXFSZ, SIG_IGN);
}

bool output_is_terminal() {
  return ::isatty(STDOUT_FILENO) != 0;
}

bool errors_are_terminal() {
  return ::isatty(STDERR_FILENO) != 0;
}

std::optional<std::tm> local_time(std::time_t moment) {
  std::tm local{};
  if (::localtime_r(&moment, &local) == nullptr) return std::nullopt;
  return local;
}

int open_to_read(const std::string& path) {
  return ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
}

int open_without_waiting(const std::string& path) {
  return ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
}

int open_to_write(const std::string& path) {
  return ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
}

int open_to_append(const std::string& path) {
  constexpr mode_t for_everyone = 0666;  // less what the user's mask takes away
  const int descriptor =
      ::open(path.c_str(), O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC, for_everyone);
  // Where locks are unknown, appending alone must do.
  if (descriptor >= 0) ::flock(descriptor, LOCK_EX);
  return descriptor;
}

int open_new_beside(std::string& path) {
  return ::mkostemp(path.data(), O_CLOEXEC);
}

bool set_usual_mode(int descriptor, const std::string& replaced) {
  struct stat old {};
  if (::stat(replaced.c_str(), &old) == 0) return ::fchmod(descriptor, old.st_mode & 07777) == 0;
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return ::fchmod(descriptor, 0666 & ~mask) == 0;
}

bool flush(int descriptor) {
  return ::fsync(descriptor) == 0;
}

void flush_folder_of(const std::string& path) {
  const std::filesystem::path parent = std::filesystem::path(path).parent_path();
  const int descriptor = ::open(parent.empty() ? "." : parent.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) return;
  ::fsync(descriptor);
  ::close(descriptor);
}

bool cut_to(int descriptor, long long size) {
  return ::ftruncate(descriptor, static_cast<off_t>(size)) == 0;
}

std::optional<char> last_byte(int descriptor, long long size) {
  char last = 0;
  if (size <= 0 || ::pread(descriptor, &last, 1, static_cast<off_t>(size - 1)) != 1)
    return std::nullopt;
  return last;
}

bool rename_over(const std::string& from, const std::string& to) {
  return ::rename(from.c_str(), to.c_str()) == 0;
}

bool rename_to_new(const std::string& from, const std::string& to) {
  // link() refuses to replace a file that appeared in the meantime; rename() would not ask. Some
  // file systems have no links.
  if (::link(from.c_str(), to.c_str()) == 0) {
    ::unlink(from.c_str());
    return true;
  }
  return errno != EEXIST && ::rename(from.c_str(), to.c_str()) == 0;
}

}  // namespace rtcmend::system
