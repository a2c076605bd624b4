#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace rtcmend {

/// Walks a folder and all folders in it, files in the order of their names (bytes compared), so
/// that two walks give the same order. Links inside are passed over: a circle of them cannot hold
/// up the walk, and nothing outside the folder is read. So are devices and pipes. Holds the names
/// of one folder a level, never those of the whole tree.
class Tree {
 public:
  /// A folder to walk, or a single file, which is then all there is.
  explicit Tree(std::string path);

  /// The next file's path, or nothing when there is none left. Throws Error (file_system) for a
  /// folder that cannot be read; the walk then goes on behind it with the next call.
  std::optional<std::string> next();

  /// Whether there is no folder: the path that is left was named, not found.
  bool is_single() const { return only_.has_value(); }

  /// How many links were passed over so far.
  std::size_t links() const { return links_; }

 private:
  struct Entry {
    std::string name;
    bool is_folder;
  };
  /// An open level: what is left of a folder, last name first.
  struct Level {
    std::string path;
    std::vector<Entry> left;
  };

  std::vector<Entry> entries_of(const std::string& folder);
  void enter(const std::string& folder);

  std::optional<std::string> only_;  ///< a single file
  std::vector<Level> levels_;
  std::size_t links_ = 0;
};

/// Where a path leads that is a link, or ends in one: the whole way, without links. Empty for a
/// path that is none.
std::string target_of_link(const std::string& path);

/// Whether the path leads to a folder, links followed. Refuses (Error, input) one that leads
/// nowhere.
bool is_folder(const std::string& path);

}  // namespace rtcmend
