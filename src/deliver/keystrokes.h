#pragma once

#include <cstddef>
#include <string_view>

namespace rtcmend {

/// Keys to press for a text with CR LF line ends: one for each character and for each Enter.
std::size_t count_keystrokes(std::string_view text);

}  // namespace rtcmend
