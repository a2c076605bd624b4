#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "forms/sizes.h"

namespace rtcmend {

/// Bytes out of a text, and how many more pieces of the same kind it holds.
struct Encoded {
  std::vector<DumpByte> bytes;
  std::size_t others = 0;
};

/// The bytes of string literals with escapes, as programs write and print them: "\x21\x00X",
/// b'!\x00X', '\041\000'; pieces one behind the other are one string. Nothing when the text has no
/// literal with such escapes; Error (input), with the line, for an escape that is cut or unknown.
std::optional<Encoded> escaped_bytes(std::string_view text, const std::string& where);

/// The bytes of base64 (RFC 4648, the alphabet for file names, too), on one line or several.
/// Nothing when the text has no long piece of it; Error (input) when a character is missing.
std::optional<Encoded> base64_bytes(std::string_view text, const std::string& where);

}  // namespace rtcmend
