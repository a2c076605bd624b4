#pragma once

#include <string>
#include <string_view>

#include "forms/chip_in_file.h"

namespace rtcmend {

/// Reads a listing of whatever style by its structure: finds the lines that carry bytes, then what
/// their numbers are (hex, octal, decimal, binary; bytes or words in either order) and what their
/// addresses are, by what is consistent over all lines. One reading is taken when the evidence puts
/// it far ahead of all that give other bytes, and the remarks say so; otherwise Error (input) shows
/// the readings side by side with the options that name one. `text` is clean (clean_text.h).
Found read_listing(std::string_view text, const std::string& where, const ReadingOptions& options);

/// True when some line of the text carries bytes as a listing's lines do.
bool looks_like_listing(std::string_view text);

}  // namespace rtcmend
