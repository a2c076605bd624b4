#pragma once

#include <string_view>

namespace rtcmend {

/// Whether file managers and archivers leave a file of this name behind beside the files that they
/// handle, so that it is nobody's dump: ".DS_Store", "Thumbs.db", "._anything", what lies below
/// "__MACOSX" and so on. `path` may have folders, with / or \ between them.
bool is_leftover(std::string_view path);

/// Which kind of archive a file is that turned out to be no dump: by how it begins, and where that
/// tells nothing (or nothing could be read) by how its name ends. "zip", "7z"; empty = none known.
std::string_view kind_of_archive(std::string_view name, std::string_view content);

/// Whether a file both begins and is named like an archive or a packed file: it is none of the few
/// dumps that begin so by chance, however many bytes it has.
bool is_surely_archive(std::string_view name, std::string_view content);

/// Whether archives of this kind are opened (base/archive.h), when their names end like it.
bool is_opened(std::string_view kind_of_archive);

}  // namespace rtcmend
