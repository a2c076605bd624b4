#include <cstdio>
#include <fcntl.h>
#include <io.h>
#include <sys/stat.h>

#include "base/system.h"

namespace rtcmend::system {

namespace {

constexpr int plain_bytes = _O_BINARY | _O_NOINHERIT;
constexpr int owner_may = _S_IREAD | _S_IWRITE;

}  // namespace

void prepare_process() {
  for (std::FILE* stream : {stdin, stdout, stderr}) ::_setmode(::_fileno(stream), _O_BINARY);
}

bool output_is_terminal() {
  return ::_isatty(::_fileno(stdout)) != 0;
}

bool errors_are_terminal() {
  return ::_isatty(::_fileno(stderr)) != 0;
}

std::optional<std::tm> local_time(std::time_t moment) {
  std::tm local{};
  if (::localtime_s(&local, &moment) != 0) return std::nullopt;
  return local;
}

int open_to_read(const std::string& path) {
  return ::_open(path.c_str(), _O_RDONLY | plain_bytes);
}

int open_without_waiting(const std::string& path) {
  return open_to_read(path);
}

int open_to_write(const std::string& path) {
  return ::_open(path.c_str(), _O_WRONLY | plain_bytes);
}

int open_to_append(const std::string& path) {
  return ::_open(path.c_str(), _O_RDWR | _O_APPEND | plain_bytes);
}

bool flush(int descriptor) {
  return ::_commit(descriptor) == 0;
}

bool cut_to(int descriptor, long long size) {
  return ::_chsize_s(descriptor, size) == 0;
}

std::optional<char> last_byte(int descriptor, long long size) {
  char last = 0;
  if (size <= 0 || ::_lseeki64(descriptor, size - 1, SEEK_SET) < 0 ||
      ::_read(descriptor, &last, 1) != 1)
    return std::nullopt;
  return last;
}

}  // namespace rtcmend::system
