#pragma once

#include <string>
#include <string_view>

#include "base/image.h"

namespace rtcmend {

/// Hex text in whatever style people have it: bytes as 40, 0x40, 40h or $40 with blanks or commas
/// between them, or two and more bytes in one group; ?? or -- for an unknown byte; comments behind
/// # or ;; an ASCII column behind the bytes; `*` for repeated rows; a session of a DOS debugger.
///
/// Without addresses the count of bytes decides, as in a raw file. With addresses they decide, and
/// what no line gives is unknown, but:
/// - offsets into a file (six digits or more) that run from 0 over exactly 50 or 114 bytes are
/// those of
///   a dump of the RAM part alone;
/// - addresses as segment:offset are those of a buffer in memory. 50, 64, 114 or 128 bytes without
///   a hole are the whole dump; else the buffer starts at the multiple of 80h below the first byte.
///
/// Refuses with the line number: an odd number of digits, anything that is not hex, an address past
/// the chip, lines that disagree, a line without address among others that have one.
Image read_hex(std::string_view content, const std::string& where);

/// "10: 40 00 ?? ...": address and 16 bytes a line, ?? for unknown ones, no ASCII column.
std::string write_hex(const Image& image);

/// True when the first line that is no comment begins as hex text does.
bool looks_like_hex(std::string_view content);

}  // namespace rtcmend
