#include "base/folder.h"

#include <algorithm>
#include <chrono>
#include <filesystem>

#include "base/error.h"

namespace rtcmend {

namespace fs = std::filesystem;

namespace {

long long modified(const fs::directory_entry& entry) {
  std::error_code failure;
  const auto time = entry.last_write_time(failure);
  if (failure) return 0;
  const auto system = std::chrono::file_clock::to_sys(time);
  return std::chrono::duration_cast<std::chrono::seconds>(system.time_since_epoch()).count();
}

}  // namespace

std::vector<FolderEntry> files_in(const std::string& folder) {
  std::error_code failure;
  if (!fs::is_directory(folder, failure))
    refuse(folder, fs::exists(folder, failure) ? "it is not a folder" : "there is no such folder",
           "name the folder that holds the machine's dumps");
  std::vector<FolderEntry> entries;
  fs::directory_iterator at(folder, failure);
  for (; !failure && at != fs::directory_iterator(); at.increment(failure)) {
    std::error_code vanished;
    const std::string name = at->path().filename().string();
    if (name.starts_with('.') || !at->is_regular_file(vanished)) continue;
    entries.push_back({name, at->path().string(), modified(*at)});
  }
  if (failure) throw Error(Refusal::file_system, folder, failure.message());
  std::sort(entries.begin(), entries.end(),
            [](const FolderEntry& a, const FolderEntry& b) { return a.name < b.name; });
  return entries;
}

void make_folder(const std::string& path) {
  std::error_code failure;
  fs::create_directories(path, failure);
  if (failure) throw Error(Refusal::file_system, path, failure.message());
}

void remove_file(const std::string& path) {
  std::error_code failure;
  if (!fs::remove(path, failure) || failure)
    throw Error(Refusal::file_system, path, failure ? failure.message() : "it is gone already");
}

namespace {

/// Whether a path leads down only, by its own words.
bool leads_down(const fs::path& path) {
  return !path.empty() && !path.has_root_path() &&
         std::find(path.begin(), path.end(), fs::path("..")) == path.end();
}

bool is_below(const fs::path& file, const fs::path& folder) {
  return std::mismatch(folder.begin(), folder.end(), file.begin(), file.end()).first ==
         folder.end();
}

}  // namespace

Below below_folder_of(const std::string& file, const std::string& name) {
  if (name == "-") return {"", "and only the command line can speak of standard input"};
  if (!leads_down(name)) return {"", "which is not in its own folder or below"};
  const fs::path parent = file == "-" ? fs::path() : fs::path(file).parent_path();
  const fs::path path = parent / name;
  std::error_code failure;
  const fs::path folder = fs::canonical(parent.empty() ? fs::path(".") : parent, failure);
  const fs::path target = failure ? fs::path() : fs::canonical(path, failure);
  if (failure) return {"", "and there is no such file"};
  if (!is_below(target, folder)) return {"", "and a link there leads elsewhere"};
  // A pipe or a device would be waited for, or read, although nobody asked for it.
  if (!fs::is_regular_file(target, failure)) return {"", "which is no plain file"};
  return {path.string(), ""};
}

}  // namespace rtcmend
