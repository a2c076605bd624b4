#include <cerrno>
#include <cstddef>
#include <fcntl.h>
#include <io.h>
#include <random>
#include <sys/stat.h>
#include <unistd.h>
#include <windows.h>

#include "base/descriptor.h"
#include "base/error.h"
#include "base/replace_file.h"
#include "base/system.h"

namespace rtcmend {

namespace {

/// The reasons that are told apart here, in POSIX' words.
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

/// A file beside the target that is gone again unless it was moved into place.
class Beside {
 public:
  explicit Beside(const std::string& target) : target_(target), descriptor_(-1) {
    constexpr int tries = 100;
    constexpr int how = _O_WRONLY | _O_CREAT | _O_EXCL | _O_BINARY | _O_NOINHERIT;
    std::random_device chance;
    for (int i = 0; i < tries && !descriptor_.open(); ++i) {
      name_ = target + ".rtcmend-" + std::to_string(chance());
      descriptor_.replace(::_open(name_.c_str(), how, _S_IREAD | _S_IWRITE));
      if (!descriptor_.open() && errno != EEXIST) break;
    }
    if (descriptor_.open()) return;
    name_.clear();
    file_system_error(target, "cannot write in its folder");
  }
  Beside(const Beside&) = delete;
  Beside& operator=(const Beside&) = delete;
  ~Beside() {
    if (name_.empty()) return;
    descriptor_.replace(-1);  // Windows deletes no open file
    ::unlink(name_.c_str());
  }

  /// False with errno set: the disk does not hold everything.
  bool fill(std::string_view content) {
    const int number = descriptor_.get();
    return write_all(number, content) && system::flush(number) && descriptor_.close();
  }

  /// Gives the file the target's name, and makes that last; false with errno set, EEXIST when the
  /// name is taken and may not be.
  bool move(Existing existing) {
    const DWORD how = existing == Existing::replace ? MOVEFILE_REPLACE_EXISTING : 0;
    if (::MoveFileExA(name_.c_str(), target_.c_str(), how | MOVEFILE_WRITE_THROUGH) == 0) {
      take_reason();
      return false;
    }
    name_.clear();
    return true;
  }

 private:
  std::string target_;
  std::string name_;  ///< empty once the file is in place
  Descriptor descriptor_;
};

}  // namespace

void put_file(const std::string& path, std::string_view content, Existing existing) {
  Beside beside(path);
  if (!beside.fill(content)) file_system_error(path, "cannot write");
  if (beside.move(existing)) return;
  if (errno == EEXIST && existing == Existing::refuse)
    refuse(path, "it exists already",
           Advice{{"Choose another name, or replace it", Act{Act::Kind::choose, "force", {}}}});
  file_system_error(path, existing == Existing::replace ? "cannot replace" : "cannot create");
}

}  // namespace rtcmend
