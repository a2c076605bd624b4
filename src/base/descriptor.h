#pragma once

#include <string>
#include <string_view>
#include <unistd.h>
#include <utility>

namespace rtcmend {

/// A file descriptor that closes itself; the standard streams stay open.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (number_ > STDERR_FILENO) ::close(number_);
  }
  int get() const { return number_; }
  bool open() const { return number_ >= 0; }
  /// Closes now; false when the file system has bad news only at the end.
  bool close() { return ::close(std::exchange(number_, -1)) == 0; }
  void replace(int number) { Descriptor old(std::exchange(number_, number)); }

 private:
  int number_;
};

/// False with errno set when not everything could be written.
bool write_all(int descriptor, std::string_view content);

/// Throws Error (file_system) for what errno says; `doing` is what could not be done.
[[noreturn]] void file_system_error(const std::string& path, const std::string& doing);

}  // namespace rtcmend
