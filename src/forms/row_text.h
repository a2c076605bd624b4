#pragma once

#include <string>

#include "base/image.h"

namespace rtcmend {

/// How many bytes every form of text puts on a line.
constexpr std::size_t bytes_a_row = 16;

/// The 16 bytes from `first` on as "40 00 ?? ...", unknown ones as ??.
std::string row_text(const Image& image, Address first);

}  // namespace rtcmend
