#include <cstdio>
#include <fcntl.h>
#include <io.h>
#include <sys/stat.h>
#include <windows.h>

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

namespace {

std::optional<FileId> id_of(HANDLE handle) {
  BY_HANDLE_FILE_INFORMATION found{};
  if (handle == INVALID_HANDLE_VALUE || !::GetFileInformationByHandle(handle, &found))
    return std::nullopt;
  return FileId{found.dwVolumeSerialNumber,
                static_cast<unsigned long long>(found.nFileIndexHigh) << 32 | found.nFileIndexLow};
}

}  // namespace

std::optional<FileId> identity(const std::string& path) {
  constexpr DWORD shared = FILE_SHARE_READ | FILE_SHARE_WRITE | FILE_SHARE_DELETE;
  const HANDLE handle = ::CreateFileA(path.c_str(), 0, shared, nullptr, OPEN_EXISTING,
                                      FILE_FLAG_BACKUP_SEMANTICS, nullptr);
  const auto id = id_of(handle);
  if (handle != INVALID_HANDLE_VALUE) ::CloseHandle(handle);
  return id;
}

std::optional<FileId> identity_of(int descriptor) {
  return id_of(reinterpret_cast<HANDLE>(::_get_osfhandle(descriptor)));
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
