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

/// Makes a folder and those above it. Throws Error (file_system).
void make_folder(const std::string& path);
/// Takes a file away. Throws Error (file_system).
void remove_file(const std::string& path);

/// Where a name leads that a file says in its text.
struct Below {
  std::string path;     ///< empty = nowhere that it may
  std::string trouble;  ///< then: why, as the end of a sentence about the name
};

/// The plain file that `file` names: in its own folder or below, never up or elsewhere, and no link
/// may lead out of there. Standard input's folder ("-") is the present one.
Below below_folder_of(const std::string& file, const std::string& name);

}  // namespace rtcmend
