#include <cerrno>
#include <optional>
#include <unistd.h>

#include "base/descriptor.h"
#include "base/error.h"
#include "base/replace_file.h"
#include "base/system.h"

namespace rtcmend {

namespace {

/// A file beside the target that is gone again unless it was renamed into place.
class Beside {
 public:
  explicit Beside(const std::string& target) : path_(target + ".rtcmend-XXXXXX") {
    const int descriptor = system::open_new_beside(path_);
    if (descriptor < 0) file_system_error(target, "cannot write in its folder");
    descriptor_.emplace(descriptor);
  }
  Beside(const Beside&) = delete;
  Beside& operator=(const Beside&) = delete;
  ~Beside() {
    descriptor_.reset();  // Windows deletes no open file
    if (!path_.empty()) ::unlink(path_.c_str());
  }
  Descriptor& descriptor() { return *descriptor_; }
  const std::string& path() const { return path_; }
  void renamed() { path_.clear(); }

 private:
  std::string path_;
  std::optional<Descriptor> descriptor_;
};

}  // namespace

void put_file(const std::string& path, std::string_view content, Existing existing) {
  const bool exists = existing == Existing::replace;
  Beside beside(path);
  const int number = beside.descriptor().get();
  if (!system::set_usual_mode(number, path) || !write_all(number, content) ||
      !system::flush(number) || !beside.descriptor().close())
    file_system_error(path, "cannot write");
  const bool renamed = exists ? system::rename_over(beside.path(), path)
                              : system::rename_to_new(beside.path(), path);
  if (!renamed && errno == EEXIST)
    refuse(path, "it exists already", "choose another name, or --force to replace it");
  if (!renamed) file_system_error(path, exists ? "cannot replace" : "cannot create");
  beside.renamed();
  // Some file systems refuse this, and the new file is complete by now: no reason to complain.
  system::flush_folder_of(path);
}

}  // namespace rtcmend
