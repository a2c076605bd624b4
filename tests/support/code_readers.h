#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace rtcmend::test {

/// A picture in grey, row by row from the top; FFh is white.
struct Picture {
  int width = 0;
  int height = 0;
  std::vector<std::uint8_t> grey;
};

/// A program that reads codes from pictures and knows nothing of this project: zbarimg (Debian's
/// zbar-tools) and ZXingReader (zxing-cpp-tools). Neither shares code with the other.
enum class CodeReader { zbar, zxing };
inline constexpr CodeReader code_readers[] = {CodeReader::zbar, CodeReader::zxing};

/// Whether the program is installed; says what is left out when not.
bool has(CodeReader reader);

/// What the program reads in each picture: a text, empty where it finds no code, its texts with a
/// blank between where it finds several.
std::vector<std::string> read_codes(CodeReader reader, const std::vector<Picture>& pictures);

}  // namespace rtcmend::test
