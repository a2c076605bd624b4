#include <cerrno>
#include <csignal>
#include <ctime>
#include <fcntl.h>
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

namespace {

FileId id_in(const struct stat& found) {
  return {static_cast<unsigned long long>(found.st_dev),
          static_cast<unsigned long long>(found.st_ino)};
}

}  // namespace

std::optional<FileId> identity(const std::string& path) {
  struct stat found {};
  if (::stat(path.c_str(), &found) != 0) return std::nullopt;
  return id_in(found);
}

std::optional<FileId> identity_of(int descriptor) {
  struct stat found {};
  if (::fstat(descriptor, &found) != 0) return std::nullopt;
  return id_in(found);
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

namespace {

/// Waits as long as another reading of a clock may take to be written, and no longer: whoever holds
/// the lock may never let go. Where locks are unknown, appending alone must do.
bool lock(int descriptor) {
  constexpr int tries = 50;
  constexpr timespec between{0, 100'000'000};
  for (int i = 0; i < tries; ++i) {
    if (::flock(descriptor, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK) return true;
    ::nanosleep(&between, nullptr);
  }
  return false;
}

}  // namespace

int open_to_append(const std::string& path) {
  const int descriptor = ::open(path.c_str(), O_RDWR | O_APPEND | O_CLOEXEC);
  if (descriptor < 0 || lock(descriptor)) return descriptor;
  ::close(descriptor);
  errno = EWOULDBLOCK;
  return -1;
}

bool flush(int descriptor) {
  return ::fsync(descriptor) == 0;
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

}  // namespace rtcmend::system
