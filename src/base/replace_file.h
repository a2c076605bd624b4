#pragma once

#include <string>
#include <string_view>

namespace rtcmend {

/// What to do with a file that is there already.
enum class Existing { refuse, replace };

/// Puts the whole content at `path`, or leaves everything as it was: written beside, flushed to the
/// disk, then named in one step. A file that is replaced keeps its owner, its group and who may
/// read, write and execute it; set-id and sticky bits, other hard links and access control lists
/// are not carried over. Throws Error: input when there is a file and `existing` says refuse, or
/// when it is another user's and cannot be kept so; file_system for everything else.
void put_file(const std::string& path, std::string_view content, Existing existing);

}  // namespace rtcmend
