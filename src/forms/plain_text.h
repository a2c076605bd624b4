#pragma once

#include <string_view>

namespace rtcmend {

/// False for control characters other than blanks and line ends.
bool is_text_character(char c);

/// True when the content can be text: no control characters but blanks and line ends. The
/// end-of-file mark of DOS (1Ah) may stand at the end; letters beyond ASCII are text, in whatever
/// encoding.
bool is_plain_text(std::string_view content);

}  // namespace rtcmend
