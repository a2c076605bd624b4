#include "base/append.h"

#include <cerrno>
#include <cstring>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/descriptor.h"
#include "base/error.h"
#include "base/system.h"

namespace rtcmend {

namespace {

[[noreturn]] void cannot(const std::string& path, const std::string& doing) {
  throw Error(Refusal::file_system, path, fmt::format("{}: {}", doing, std::strerror(errno)),
              "nothing was added; make room or choose another place, then run it again");
}

/// A file open for appending, held against other programs while it lives.
class Appending {
 public:
  explicit Appending(const std::string& path) : number_(system::open_to_append(path)) {
    if (number_ < 0) cannot(path, "cannot open it");
  }
  Appending(const Appending&) = delete;
  Appending& operator=(const Appending&) = delete;
  ~Appending() { ::close(number_); }
  int number() const { return number_; }

 private:
  int number_;
};

bool ends_inside_a_line(int number, long long size) {
  return system::last_byte(number, size).value_or('\n') != '\n';
}

/// Back to the size it had; what failed stays in errno.
void take_back(int number, long long size) {
  const int reason = errno;
  system::cut_to(number, size);
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
  if (write_all(file.number(), text) && system::flush(file.number())) return;
  // A pipe or a device cannot be flushed, and has nothing to be taken back.
  if (!S_ISREG(found.st_mode) && errno == EINVAL) return;
  take_back(file.number(), found.st_size);
  cannot(path, "cannot write");
}

}  // namespace rtcmend
