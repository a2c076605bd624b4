#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace rtcmend {

/// What the first line of the keyboard program makes of the letters behind it
/// (asm/keyboard_loader.asm): a byte a pair, pairs that begin below '9' skipped, up to and without
/// the byte 00h.
std::vector<std::uint8_t> decode_letters(std::string_view letters);

/// Slips of the hand whose outcome a CRC only makes unlikely, not impossible, because they move
/// what follows: for every position a character left out, doubled, swapped with the next, one that
/// makes the loader skip its pair, and one that ends the text. True when each of them gives another
/// CRC than the wanted one. (Any other wrong character changes one byte, which a CRC always finds.)
///
/// before: the CRC over the first line. letters: everything behind it, with line ends.
bool slips_are_found(std::uint16_t before, std::string_view letters, std::uint16_t wanted);

}  // namespace rtcmend
