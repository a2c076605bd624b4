// Preloaded before rtcmend (LD_PRELOAD) by the tests of writing: makes one chosen call on a file
// that is being written fail, come up short, or be the program's last.
//   FAULT_AT=n    the n-th such call is the one; 0 or unset: none
//   FAULT_HOW     eio, enospc: it fails so; short: a write takes only half;
//                 cut: a write takes half, and no later one anything; kill: the program dies there
//   FAULT_LACKS   nameless: the file system knows no files without a name; links: nor links (FAT)
//   FAULT_LOG     a file that gets the name of each such call, a line each

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdarg>
#include <cstdlib>
#include <cstring>
#include <dlfcn.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace {

// Only the descriptors of this many files are watched; rtcmend has two or three open.
constexpr int most_files = 1024;
std::array<bool, most_files> being_written;
std::array<bool, most_files> folders;
int calls = 0;
bool disk_full = false;

template <typename Function>
Function* real(const char* name) {
  return reinterpret_cast<Function*>(::dlsym(RTLD_NEXT, name));
}

bool among(const std::array<bool, most_files>& marked, int number) {
  return number >= 0 && number < most_files && marked[static_cast<std::size_t>(number)];
}

int mark(std::array<bool, most_files>& marked, int number) {
  if (number >= 0 && number < most_files) marked[static_cast<std::size_t>(number)] = true;
  return number;
}

bool lacks(const char* word) {
  const char* given = std::getenv("FAULT_LACKS");
  return given != nullptr && std::strstr(given, word) != nullptr;
}

bool how(const char* word) {
  const char* given = std::getenv("FAULT_HOW");
  return given != nullptr && std::strcmp(given, word) == 0;
}

void log_call(const char* name) {
  const char* path = std::getenv("FAULT_LOG");
  if (path == nullptr) return;
  const int log =
      real<int(const char*, int, ...)>("open")(path, O_WRONLY | O_CREAT | O_APPEND, 0600);
  const auto write = real<ssize_t(int, const void*, std::size_t)>("write");
  if (write(log, name, std::strlen(name)) < 0 || write(log, "\n", 1) < 0) ::abort();
  real<int(int)>("close")(log);
}

/// Whether this call is the chosen one.
bool chosen(const char* name) {
  log_call(name);
  const char* at = std::getenv("FAULT_AT");
  if (at == nullptr || ++calls != std::atoi(at)) return false;
  if (how("kill")) ::raise(SIGKILL);
  return true;
}

/// Whether the chosen call fails outright; errno says why.
bool fails(const char* name) {
  if (!chosen(name) || how("short") || how("cut")) return false;
  errno = how("enospc") ? ENOSPC : EIO;
  return true;
}

int open_as(const char* symbol, const char* path, int flags, mode_t mode) {
  const auto real_open = real<int(const char*, int, ...)>(symbol);
  const bool nameless = (flags & O_TMPFILE) == O_TMPFILE;
  const bool folder = !nameless && (flags & O_DIRECTORY) != 0;
  if (nameless && lacks("nameless")) {
    errno = EOPNOTSUPP;
    return -1;
  }
  if (!folder && (flags & O_ACCMODE) == O_RDONLY) return real_open(path, flags, mode);
  if (fails("open")) return -1;
  return mark(folder ? folders : being_written, real_open(path, flags, mode));
}

}  // namespace

extern "C" {

int open(const char* path, int flags, ...) {
  va_list rest;
  va_start(rest, flags);
  const mode_t mode = va_arg(rest, mode_t);
  va_end(rest);
  return open_as("open", path, flags, mode);
}

int open64(const char* path, int flags, ...) {
  va_list rest;
  va_start(rest, flags);
  const mode_t mode = va_arg(rest, mode_t);
  va_end(rest);
  return open_as("open64", path, flags, mode);
}

int mkostemp(char* pattern, int flags) {
  if (fails("mkostemp")) return -1;
  return mark(being_written, real<int(char*, int)>("mkostemp")(pattern, flags));
}

ssize_t write(int number, const void* bytes, std::size_t count) {
  const auto real_write = real<ssize_t(int, const void*, std::size_t)>("write");
  if (!among(being_written, number)) return real_write(number, bytes, count);
  if (disk_full) {
    errno = ENOSPC;
    return -1;
  }
  if (!chosen("write")) return real_write(number, bytes, count);
  if (how("short") || how("cut")) {
    disk_full = how("cut");
    return real_write(number, bytes, (count + 1) / 2);
  }
  errno = how("enospc") ? ENOSPC : EIO;
  return -1;
}

int fchmod(int number, mode_t mode) {
  if (among(being_written, number) && fails("fchmod")) return -1;
  return real<int(int, mode_t)>("fchmod")(number, mode);
}

int fsync(int number) {
  if ((among(being_written, number) || among(folders, number)) && fails("fsync")) return -1;
  return real<int(int)>("fsync")(number);
}

int close(int number) {
  const bool written = among(being_written, number);
  const bool bad = written && fails("close");
  if (written) being_written[static_cast<std::size_t>(number)] = false;
  if (among(folders, number)) folders[static_cast<std::size_t>(number)] = false;
  const int result = real<int(int)>("close")(number);
  if (!bad) return result;
  errno = how("enospc") ? ENOSPC : EIO;
  return -1;
}

int link(const char* from, const char* to) noexcept {
  if (lacks("links")) {
    errno = EPERM;
    return -1;
  }
  if (fails("link")) return -1;
  return real<int(const char*, const char*)>("link")(from, to);
}

int linkat(int from_folder, const char* from, int to_folder, const char* to, int flags) noexcept {
  if (fails("linkat")) return -1;
  return real<int(int, const char*, int, const char*, int)>("linkat")(from_folder, from, to_folder,
                                                                      to, flags);
}

int rename(const char* from, const char* to) noexcept {
  if (fails("rename")) return -1;
  return real<int(const char*, const char*)>("rename")(from, to);
}

}  // extern "C"
