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

}  // namespace rtcmend
