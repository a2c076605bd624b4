#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rtcmend {

/// What to try for a mistyped word: the nearest of those that are known, or all of them when none
/// is near. "1.44M or 1.2M", "none, silicon, schottky".
std::string near_or_all(std::string_view word, const std::vector<std::string>& known);

/// Names in the same folder that a mistyped file name may have meant, with the folder in front,
/// best first.
std::vector<std::string> near_file_names(const std::string& path);

}  // namespace rtcmend
