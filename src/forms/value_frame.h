#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace rtcmend {

/// A program's text with blanks in place of all but the values of its array: those between the
/// brackets that hold most numbers, those behind DATA of BASIC or db, .byte and their like of
/// assemblers, or hex digits in quotes. Lines and columns stay what they are. Nothing when the text
/// has none of these.
std::optional<std::string> framed_values(std::string_view text);

}  // namespace rtcmend
