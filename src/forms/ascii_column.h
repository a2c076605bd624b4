#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "forms/sizes.h"

namespace rtcmend {

/// How well a text fits as the ASCII column behind these bytes.
enum class AsciiFit {
  none,     ///< it is something else
  similar,  ///< at least half of the characters fit: the bytes were changed, the column was not
  exact,
};

/// Compares one character a byte: the character itself, or a dot, blank or foreign letter for what
/// cannot be printed. Blanks at the end of the text may be missing.
AsciiFit ascii_fit(const std::vector<DumpByte>& bytes, std::string_view text);

/// What such a text shows for each of the bytes, by its first code unit; 0 where it has ended.
std::string letters_beside(const std::vector<DumpByte>& bytes, std::string_view text);

}  // namespace rtcmend
