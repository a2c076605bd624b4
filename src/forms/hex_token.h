#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "forms/sizes.h"

namespace rtcmend {

/// A word of hex text: one byte or several without a blank between them.
struct HexToken {
  std::vector<DumpByte> bytes;
  std::string problem;  ///< what is wrong with the word; empty when nothing is
};

/// Reads "40", "0x40", "40h", "$40", "&H40", "??", "--", groups such as "4000" and pairs that a
/// debugger joins by a dash, "41-42".
HexToken parse_hex_token(std::string_view word);

/// True when the text is made of hex digits alone, at least one.
bool all_hex(std::string_view text);

}  // namespace rtcmend
