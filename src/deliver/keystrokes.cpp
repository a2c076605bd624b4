#include "deliver/keystrokes.h"

#include <algorithm>

namespace rtcmend {

std::size_t count_keystrokes(std::string_view text) {
  const auto line_feeds = std::count(text.begin(), text.end(), '\n');
  return text.size() - static_cast<std::size_t>(line_feeds);
}

}  // namespace rtcmend
