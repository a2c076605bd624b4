#include <cerrno>
#include <cstdio>
#include <cstring>
#include <fcntl.h>
#include <io.h>
#include <random>
#include <sys/stat.h>
#include <windows.h>

#include "base/system.h"

namespace rtcmend::system {

namespace {

constexpr int plain_bytes = _O_BINARY | _O_NOINHERIT;
constexpr int owner_may = _S_IREAD | _S_IWRITE;

/// The reasons that the callers tell apart, in POSIX' words.
void take_reason() {
  switch (::GetLastError()) {
    case ERROR_ALREADY_EXISTS:
    case ERROR_FILE_EXISTS:
      errno = EEXIST;
      break;
    case ERROR_FILE_NOT_FOUND:
    case ERROR_PATH_NOT_FOUND:
      errno = ENOENT;
      break;
    case ERROR_DISK_FULL:
      errno = ENOSPC;
      break;
    default:
      errno = EACCES;
  }
}

bool give_name(const std::string& from, const std::string& to, DWORD how) {
  if (::MoveFileExA(from.c_str(), to.c_str(), how | MOVEFILE_WRITE_THROUGH) != 0) return true;
  take_reason();
  return false;
}

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
  return ::_open(path.c_str(), _O_RDWR | _O_CREAT | _O_APPEND | plain_bytes, owner_may);
}

int open_new_beside(std::string& path) {
  constexpr std::size_t letters = 6;
  constexpr int tries = 100;
  std::random_device chance;
  for (int i = 0; i < tries; ++i) {
    for (std::size_t at = path.size() - letters; at < path.size(); ++at)
      path[at] = static_cast<char>('a' + chance() % 26);
    const int descriptor =
        ::_open(path.c_str(), _O_WRONLY | _O_CREAT | _O_EXCL | plain_bytes, owner_may);
    if (descriptor >= 0 || errno != EEXIST) return descriptor;
  }
  return -1;
}

bool set_usual_mode(int, const std::string&) {
  return true;  // a new file inherits what its folder says
}

bool flush(int descriptor) {
  return ::_commit(descriptor) == 0;
}

void flush_folder_of(const std::string&) {}

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

bool rename_over(const std::string& from, const std::string& to) {
  return give_name(from, to, MOVEFILE_REPLACE_EXISTING);
}

bool rename_to_new(const std::string& from, const std::string& to) {
  return give_name(from, to, 0);
}

}  // namespace rtcmend::system
