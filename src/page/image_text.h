#pragma once

#include <string>
#include <string_view>

#include "base/image.h"

namespace rtcmend {

/// An image as the page keeps it between calls: two hex digits a byte, "??" for an unknown one.
std::string image_text(const Image& image);
/// The same, read. Refuses (Error) anything else.
Image image_from(std::string_view text);

/// Any bytes as hex digits, and back: how files cross the border to the browser.
std::string hex_text(std::string_view bytes);
std::string bytes_from_hex(std::string_view digits);

}  // namespace rtcmend
