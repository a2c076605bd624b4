#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "deliver/delivery.h"

namespace rtcmend {

/// What is typed at the keyboard, as it stands in memory once the first line has decoded it.
struct TypedProgram {
  std::vector<std::uint8_t> loader;   ///< the first line, 100h-13Fh
  std::vector<std::uint8_t> program;  ///< from 140h on, without the 00h that ends it
};

/// Where the decoded program stands.
inline constexpr std::uint16_t typed_start = 0x140;

/// The program with its first line and the two bytes that close it; nothing where a byte comes out
/// at 00h, which would end the decoding, or where a slip of the hand would not be found.
std::optional<TypedProgram> typed_program(std::vector<std::uint8_t> program);

/// What the sheet says around the lines.
struct SheetWords {
  std::string_view name;    ///< of the file, "MEND"
  std::string_view before;  ///< in front of the lines
  std::string_view after;   ///< behind the COPY line
};

/// The text as COPY CON stores it, the typing sheet and the keystrokes.
Delivery typed_delivery(const TypedProgram& typed, const SheetWords& words);

}  // namespace rtcmend
