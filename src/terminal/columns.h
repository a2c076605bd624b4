#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "base/ranges.h"

namespace rtcmend {

/// Text is made to be read on this many columns.
constexpr std::size_t page_width = 80;

/// Folded text that begins at `column` of the current line and keeps to it on the next ones. The
/// text is made safe for a terminal first.
std::string hanging(std::string_view text, std::size_t column);
/// A label led by dots to the next column: "Base memory ......". Longer labels are left whole.
std::string dotted(std::string_view label, std::size_t width);
/// The same addresses for a narrow column: "17-18", "12 19".
std::string narrow(const Addresses& addresses);

}  // namespace rtcmend
