#pragma once

#include <string>
#include <string_view>

namespace rtcmend {

/// Adds one line to a text file, which is made when it is not there: whole and flushed to the disk,
/// or not at all. A last line that was left without its end gets one first, so that an accident of
/// another program cannot swallow this line. Throws Error (file_system), with the file as it was.
void append_line(const std::string& path, std::string_view line);

}  // namespace rtcmend
