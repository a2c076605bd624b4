#include "base/append.h"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/error.h"

namespace rtcmend {

namespace {

[[noreturn]] void cannot(const std::string& path, const std::string& doing) {
  throw Error(Refusal::file_system, path, fmt::format("{}: {}", doing, std::strerror(errno)),
              "nothing was added; make room or choose another place, then run it again");
}

/// A file open for appending, held against other programs while it lives.
class Appending {
 public:
  explicit Appending(const std::string& path)
      : number_(::open(path.c_str(), O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC, 0666)) {
    if (number_ < 0) cannot(path, "cannot open it");
    ::flock(number_, LOCK_EX);  // where locks are unknown, appending alone must do
  }
  Appending(const Appending&) = delete;
  Appending& operator=(const Appending&) = delete;
  ~Appending() { ::close(number_); }
  int number() const { return number_; }

 private:
  int number_;
};

bool ends_inside_a_line(int number, off_t size) {
  char last = '\n';
  return size > 0 && ::pread(number, &last, 1, size - 1) == 1 && last != '\n';
}

bool write_all(int number, std::string_view text) {
  while (!text.empty()) {
    const ssize_t count = ::write(number, text.data(), text.size());
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) return false;
    text.remove_prefix(static_cast<std::size_t>(count));
  }
  return true;
}

/// Back to the size it had; what failed stays in errno.
void take_back(int number, off_t size) {
  const int reason = errno;
  [[maybe_unused]] const int done = ::ftruncate(number, size);
  errno = reason;
}

}  // namespace

void append_line(const std::string& path, std::string_view line) {
  const Appending file(path);
  struct stat found {};
  if (::fstat(file.number(), &found) != 0) cannot(path, "cannot look at it");
  std::string text = ends_inside_a_line(file.number(), found.st_size) ? "\n" : "";
  text += line;
  text += '\n';
  if (write_all(file.number(), text) && ::fsync(file.number()) == 0) return;
  // A pipe or a device cannot be flushed, and has nothing to be taken back.
  if (!S_ISREG(found.st_mode) && errno == EINVAL) return;
  take_back(file.number(), found.st_size);
  cannot(path, "cannot write");
}

}  // namespace rtcmend
