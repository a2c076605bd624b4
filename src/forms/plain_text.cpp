#include "forms/plain_text.h"

#include <algorithm>

namespace rtcmend {

bool is_text_character(char c) {
  const auto code = static_cast<unsigned char>(c);
  return (code >= 0x20 && code != 0x7F) || (code >= '\t' && code <= '\r');
}

bool is_plain_text(std::string_view content) {
  const auto last = content.find_last_not_of('\x1A');
  if (last == std::string_view::npos) return false;
  content = content.substr(0, last + 1);
  return std::all_of(content.begin(), content.end(), is_text_character);
}

}  // namespace rtcmend
