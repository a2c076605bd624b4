#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <fmt/format.h>
#include <optional>
#include <sys/stat.h>
#include <unistd.h>

#include "base/descriptor.h"
#include "base/error.h"
#include "base/replace_file.h"

namespace rtcmend {

namespace {

std::string folder_of(const std::string& path) {
  const std::filesystem::path target(path);
  return target.has_parent_path() ? target.parent_path().string() : ".";
}

/// The target's name, cut so far that a name behind it fits (255 bytes on all common file systems).
std::string stem(const std::string& target) {
  constexpr std::size_t most = 200;
  const std::size_t name = target.size() - (target.find_last_of('/') + 1);
  return name <= most ? target : target.substr(0, target.size() - (name - most));
}

/// A file beside the target. It has no name until it is complete, where the file system can do
/// that, so that even a killed program leaves nothing half-written; otherwise it has a name of its
/// own, and is gone again unless it was moved into place.
class Beside {
 public:
  explicit Beside(const std::string& target) : target_(target), descriptor_(-1) {
    descriptor_.replace(
        ::open(folder_of(target).c_str(), O_TMPFILE | O_WRONLY | O_CLOEXEC, S_IRUSR | S_IWUSR));
    // Not every file system knows nameless files (open(2), O_TMPFILE), nor every kernel.
    const bool unheard_of = !descriptor_.open() && (errno == EOPNOTSUPP || errno == EISDIR);
    const bool unnameable = descriptor_.open() && ::access(handle().c_str(), F_OK) != 0;
    if (unheard_of || unnameable) {
      name_ = stem(target) + ".rtcmend-XXXXXX";
      descriptor_.replace(::mkostemp(name_.data(), O_CLOEXEC));
    }
    if (descriptor_.open()) return;
    name_.clear();
    file_system_error(target, "cannot write in its folder");
  }
  Beside(const Beside&) = delete;
  Beside& operator=(const Beside&) = delete;
  ~Beside() {
    if (!name_.empty()) ::unlink(name_.c_str());
  }

  /// Gives it to this owner and group; false when that is not allowed.
  bool give_to(uid_t owner, gid_t group) const {
    return ::fchown(descriptor_.get(), owner, group) == 0;
  }

  /// False with errno set: the disk does not hold everything.
  bool fill(std::string_view content, mode_t mode) {
    const int number = descriptor_.get();
    return ::fchmod(number, mode) == 0 && write_all(number, content) && ::fsync(number) == 0;
  }

  /// Gives the file the target's name; false with errno set, EEXIST when there is one already.
  bool create() {
    if (name_.empty()) return link_to(target_);
    if (::link(name_.c_str(), target_.c_str()) == 0) return true;
    // FAT knows no links; there, only a rename gives a file its name.
    return (errno == EPERM || errno == EOPNOTSUPP) && move();
  }

  /// Puts the file in the target's place; false with errno set.
  bool replace() { return take_name() && move(); }

  /// False when the file system has bad news only at the end.
  bool close() { return descriptor_.close(); }

 private:
  /// The nameless file as linkat() takes it (open(2), O_TMPFILE).
  std::string handle() const { return fmt::format("/proc/self/fd/{}", descriptor_.get()); }

  bool link_to(const std::string& name) const {
    return ::linkat(AT_FDCWD, handle().c_str(), AT_FDCWD, name.c_str(), AT_SYMLINK_FOLLOW) == 0;
  }

  bool take_name() {
    for (int attempt = 0; name_.empty(); ++attempt) {
      const std::string name = fmt::format("{}.rtcmend-{}-{}", stem(target_), ::getpid(), attempt);
      if (link_to(name))
        name_ = name;
      else if (errno != EEXIST)
        return false;
    }
    return true;
  }

  bool move() {
    if (::rename(name_.c_str(), target_.c_str()) != 0) return false;
    name_.clear();
    return true;
  }

  std::string target_;
  std::string name_;  ///< empty while the file has none
  Descriptor descriptor_;
};

[[noreturn]] void late_failure(const std::string& path) {
  throw Error(Refusal::file_system, path,
              fmt::format("it is written, but may not last: {}", std::strerror(errno)),
              "check the disk, then check that the file is there and whole");
}

/// Makes the name itself last: a folder is flushed like a file. Some file systems cannot, and a
/// folder may be closed to readers; the new file is complete by then, so only a real failure
/// counts.
void flush_folder(const std::string& path) {
  const Descriptor folder(::open(folder_of(path).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (folder.open() ? ::fsync(folder.get()) == 0 : errno == EACCES) return;
  if (errno != EINVAL && errno != ENOTSUP) late_failure(path);
}

/// Who may do what with a file.
struct Access {
  mode_t mode;
  std::optional<uid_t> owner;  ///< and group: of the file that is replaced
  gid_t group = 0;
};

/// That of the file that is replaced, or what the user's mask leaves of a new one. Bits beyond
/// read, write and execute are not carried over: whoever left a set-user-id file there must not get
/// one with other content and another owner.
Access access_for(const std::string& path) {
  struct stat old {};
  if (::stat(path.c_str(), &old) == 0) return {old.st_mode & 0777, old.st_uid, old.st_gid};
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return {0666 & ~mask, std::nullopt};
}

/// Refuses to put a file of one's own in the place of somebody else's, when it cannot be given to
/// them.
[[noreturn]] void refuse_strangers_file(const std::string& path) {
  refuse(path, "it belongs to another user, and the file in its place would be yours",
         "choose another name");
}

}  // namespace

void put_file(const std::string& path, std::string_view content, Existing existing) {
  Beside beside(path);
  Access access = access_for(path);
  if (access.owner && !beside.give_to(*access.owner, access.group)) {
    if (*access.owner != ::geteuid()) refuse_strangers_file(path);
    access.mode &= ~070U;  // the group will be another one
  }
  if (!beside.fill(content, access.mode)) file_system_error(path, "cannot write");
  if (existing == Existing::replace) {
    if (!beside.replace()) file_system_error(path, "cannot replace");
  } else if (!beside.create()) {
    // Creating refuses to replace a file that appeared in the meantime.
    if (errno == EEXIST)
      refuse(path, "it exists already",
             Advice{{"Choose another name, or replace it", Act{Act::Kind::choose, "force", {}}}});
    file_system_error(path, "cannot create");
  }
  if (!beside.close()) late_failure(path);
  flush_folder(path);
}

}  // namespace rtcmend
