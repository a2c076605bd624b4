#include "base/near_miss.h"

#include <filesystem>

#include "base/text.h"

namespace rtcmend {

namespace fs = std::filesystem;

namespace {

/// A folder with more files than this is not searched for a name.
constexpr std::size_t most_files = 2000;

std::vector<std::string> names_in(const fs::path& folder) {
  std::vector<std::string> names;
  std::error_code failure;
  fs::directory_iterator at(folder, failure);
  for (; !failure && at != fs::directory_iterator(); at.increment(failure)) {
    if (names.size() == most_files) return {};
    names.push_back(at->path().filename().string());
  }
  return names;
}

}  // namespace

std::string near_or_all(std::string_view word, const std::vector<std::string>& known) {
  const auto near = nearest(word, known);
  return near.empty() ? join(known, ", ") : join(near, " or ");
}

std::vector<std::string> near_file_names(const std::string& path) {
  const fs::path asked(path);
  const fs::path folder = asked.has_parent_path() ? asked.parent_path() : fs::path(".");
  std::vector<std::string> found;
  for (const std::string& name : nearest(asked.filename().string(), names_in(folder)))
    found.push_back(asked.has_parent_path() ? (folder / name).string() : name);
  return found;
}

}  // namespace rtcmend
