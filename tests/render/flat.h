#pragma once

#include <sstream>
#include <string>

namespace rtcmend::test {

/// The words of a text with one blank between them, however it is folded.
inline std::string flat(const std::string& text) {
  std::istringstream words(text);
  std::string all;
  for (std::string word; words >> word;) all += (all.empty() ? "" : " ") + word;
  return all;
}

}  // namespace rtcmend::test
