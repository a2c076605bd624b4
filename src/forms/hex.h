#pragma once

#include <string>
#include <string_view>

#include "forms/chip_in_file.h"

namespace rtcmend {

/// A listing of whatever kind: a session of a DOS debugger (hex_session.h), string literals and
/// base64 (encoded_bytes.h), the values of an array in a program's text (value_frame.h), or rows of
/// numbers (read_listing.h). `text` is clean (clean_text.h).
Found read_hex(std::string_view text, const std::string& where, const ReadingOptions& options);

/// "10: 40 00 ?? ...": address and 16 bytes a line, ?? for unknown ones, no ASCII column.
std::string write_hex(const Image& image);

/// True when the text holds something that read_hex() takes for bytes.
bool looks_like_hex(std::string_view text);

}  // namespace rtcmend
