#pragma once

#include <cstdint>
#include <span>
#include <string_view>

namespace rtcmend {

/// A program for the old machine as nasm left it: the code, then the table of its named places.
struct AssembledProgram {
  std::string_view name;  ///< of its source, "restore_dos"
  std::span<const std::uint8_t> bytes;
};

/// All of them. Defined in a source that the build generates from asm/.
std::span<const AssembledProgram> assembled_programs();

}  // namespace rtcmend
