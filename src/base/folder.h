#pragma once

#include <string>
#include <vector>

namespace rtcmend {

/// A file in a folder.
struct FolderEntry {
  std::string name;  ///< without the folder
  std::string path;
  long long modified = 0;  ///< seconds since 1970, UTC
};

/// The files of a folder, by name; hidden ones and folders are left out. Throws Error: input for
/// what is no folder, file_system when it cannot be read.
std::vector<FolderEntry> files_in(const std::string& folder);

}  // namespace rtcmend
