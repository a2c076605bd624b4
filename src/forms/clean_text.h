#pragma once

#include <string>
#include <string_view>

namespace rtcmend {

/// True when the content is UTF-16 text: a byte order mark in front and characters of text behind
/// it, or a zero in every second byte, as Windows writes what a program prints into a file.
bool is_utf16(std::string_view content);

/// Text as readers want it: UTF-8 without mark, and ASCII where editors and web pages put signs of
/// their own: typographic quotes and dashes, blanks that do not break, frames of tables. UTF-16 is
/// turned into UTF-8; Error (input) when it is cut in the middle of a character.
std::string clean_text(std::string_view content, const std::string& where);

}  // namespace rtcmend
