#include "base/append.h"

#include <cerrno>
#include <cstring>
#include <fmt/format.h>
#include <sys/stat.h>

#include "base/descriptor.h"
#include "base/error.h"
#include "base/files.h"
#include "base/system.h"

namespace rtcmend {

namespace {

[[noreturn]] void cannot(const std::string& path, const std::string& doing) {
  throw Error(Refusal::file_system, path, fmt::format("{}: {}", doing, std::strerror(errno)),
              "nothing was added; make room or choose another place, then run it again");
}

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

void check_log(const std::string& path) {
  struct stat found {};
  if (path == "-" || (::stat(path.c_str(), &found) == 0 && !S_ISREG(found.st_mode)))
    refuse(path, "a log is kept in a file, and this is none", "name a file, there or not yet");
}

void append_lines(const std::string& path, std::string_view lines) {
  check_log(path);
  Descriptor file(system::open_to_append(path));
  // A file that is new gets its name when the lines are in it, so that none is left behind empty.
  if (!file.open() && errno == ENOENT) return write_whole(path, lines, {});
  if (!file.open() && errno == EWOULDBLOCK)
    throw Error(Refusal::file_system, path, "another program holds it and does not let go",
                "nothing was added; end that program, then run it again");
  if (!file.open()) cannot(path, "cannot open it");
  struct stat found {};
  if (::fstat(file.get(), &found) != 0) cannot(path, "cannot look at it");
  std::string text = ends_inside_a_line(file.get(), found.st_size) ? "\n" : "";
  text += lines;
  if (!write_all(file.get(), text) || !system::flush(file.get())) {
    take_back(file.get(), found.st_size);
    cannot(path, "cannot write");
  }
  if (!file.close())
    throw Error(Refusal::file_system, path,
                fmt::format("it is written, but may not last: {}", std::strerror(errno)),
                "check the disk, then look at the file's last lines");
}

}  // namespace rtcmend
