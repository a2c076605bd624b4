#include "base/tree.h"

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <dirent.h>
#include <memory>
#include <sys/stat.h>
#include <utility>

#include "base/error.h"

namespace rtcmend {

namespace {

enum class Kind { file, folder, link, other };

Kind kind_of_mode(mode_t mode) {
  if (S_ISDIR(mode)) return Kind::folder;
#ifdef S_ISLNK
  if (S_ISLNK(mode)) return Kind::link;
#endif
  return S_ISREG(mode) ? Kind::file : Kind::other;
}

#ifdef _WIN32
/// A listing says no kinds here.
Kind kind_of(const std::string& folder, const dirent& entry) {
  struct stat found {};
  if (::stat((folder + "/" + entry.d_name).c_str(), &found) != 0) return Kind::other;
  return kind_of_mode(found.st_mode);
}
#else
/// Most file systems say the kind with the name; asking each file would cost as much as reading it.
Kind kind_of(const std::string& folder, const dirent& entry) {
  if (entry.d_type == DT_DIR) return Kind::folder;
  if (entry.d_type == DT_REG) return Kind::file;
  if (entry.d_type == DT_LNK) return Kind::link;
  if (entry.d_type != DT_UNKNOWN) return Kind::other;
  struct stat found {};
  if (::lstat((folder + "/" + entry.d_name).c_str(), &found) != 0) return Kind::other;
  return kind_of_mode(found.st_mode);
}
#endif

bool is_dots(std::string_view name) {
  return name == "." || name == "..";
}

}  // namespace

bool is_folder(const std::string& path) {
  struct stat found {};
  if (::stat(path.c_str(), &found) != 0)
    refuse(path, std::strerror(errno), "check the name and the folder");
  return S_ISDIR(found.st_mode);
}

std::string target_of_link(const std::string& path) {
#ifdef _WIN32
  static_cast<void>(path);
  return {};
#else
  // "folder/" is what the link leads to; the link itself is asked for without the slash.
  std::string plain = path;
  while (plain.size() > 1 && plain.ends_with('/')) plain.pop_back();
  struct stat found {};
  if (::lstat(plain.c_str(), &found) != 0 || !S_ISLNK(found.st_mode)) return {};
  const std::unique_ptr<char, void (*)(void*)> target(::realpath(plain.c_str(), nullptr),
                                                      std::free);
  return target ? std::string(target.get()) : std::string();
#endif
}

Tree::Tree(std::string path) {
  if (!is_folder(path)) {
    only_ = std::move(path);
    return;
  }
  while (path.size() > 1 && path.ends_with('/')) path.pop_back();
  levels_.push_back({{}, {{std::move(path), true}}});
}

std::vector<Tree::Entry> Tree::entries_of(const std::string& folder) {
  const std::unique_ptr<DIR, int (*)(DIR*)> listing(::opendir(folder.c_str()), ::closedir);
  if (!listing) throw Error(Refusal::file_system, folder, std::strerror(errno));
  std::vector<Entry> entries;
  while (const dirent* entry = ::readdir(listing.get())) {
    if (is_dots(entry->d_name)) continue;
    const Kind kind = kind_of(folder, *entry);
    if (kind == Kind::link) ++links_;
    if (kind == Kind::file || kind == Kind::folder)
      entries.push_back({entry->d_name, kind == Kind::folder});
  }
  // Last name first, so that the next one can be taken off the end.
  std::sort(entries.begin(), entries.end(),
            [](const Entry& a, const Entry& b) { return a.name > b.name; });
  return entries;
}

void Tree::enter(const std::string& folder) {
  levels_.push_back({folder.ends_with('/') ? folder : folder + "/", entries_of(folder)});
}

std::optional<std::string> Tree::next() {
  if (only_) return std::exchange(only_, std::nullopt);
  while (!levels_.empty()) {
    Level& level = levels_.back();
    if (level.left.empty()) {
      levels_.pop_back();
      continue;
    }
    const Entry entry = std::move(level.left.back());
    level.left.pop_back();
    std::string path = level.path + entry.name;
    if (!entry.is_folder) return path;
    enter(path);  // `level` is no longer valid
  }
  return std::nullopt;
}

}  // namespace rtcmend
