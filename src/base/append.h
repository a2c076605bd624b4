#pragma once

#include <string>
#include <string_view>

namespace rtcmend {

/// Refuses (Error, input), before any work is done, what is there and is no file: a folder, a pipe,
/// a device.
void check_log(const std::string& path);

/// Adds whole lines to a text file, which is made when it is not there: all of them, flushed to the
/// disk, or none. A last line that was left without its end gets one first, so that an accident of
/// another program cannot swallow the first of these. Throws Error: input for what
/// check_log refuses, file_system for everything else, with the file as it was.
void append_lines(const std::string& path, std::string_view lines);

}  // namespace rtcmend
