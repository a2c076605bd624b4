#pragma once

#include <string>
#include <string_view>

namespace rtcmend {

/// Adds whole lines to a text file, which is made when it is not there: all of them, flushed to the
/// disk, or none. A last line that was left without its end gets one first, so that an accident of
/// another program cannot swallow the first of these. Throws Error (file_system), with the file as
/// it was.
void append_lines(const std::string& path, std::string_view lines);

}  // namespace rtcmend
