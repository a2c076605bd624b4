#pragma once

#include <string>
#include <string_view>

namespace rtcmend {

/// What to do with a file that is there already.
enum class Existing { refuse, replace };

/// Puts the whole content at `path`, or leaves everything as it was: written beside, flushed to the
/// disk, then named in one step. A file that is replaced keeps its mode. Throws Error: input when
/// there is a file and `existing` says refuse, file_system for everything else.
void put_file(const std::string& path, std::string_view content, Existing existing);

}  // namespace rtcmend
