#pragma once

#include <array>
#include <cstdint>
#include <string_view>

namespace rtcmend {

/// What version 5-L has, in one block (ISO/IEC 18004; from memory, held against other encoders).
inline constexpr std::size_t data_codewords = 108;
inline constexpr std::size_t correction_codewords = 26;
inline constexpr std::size_t most_characters = 154;

using Codewords = std::array<std::uint8_t, data_codewords + correction_codewords>;

/// The bytes of the code that says a text: its characters, padding, and error correction. Refuses
/// (Error) what is not in the alphanumeric set, and a text that is too long.
Codewords codewords_of(std::string_view text);

}  // namespace rtcmend
