#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "forms/chip_in_file.h"

namespace rtcmend {

/// What a QR code of a chip says, in the letters of its alphanumeric set. A code holds 64 bytes, so
/// a chip of 128 takes two:
///
///     RTCMEND1/64/00/210058...7F/1D0F/A8C3
///
/// RTCMEND and the version of this form, the chip's size, the first address, 64 bytes (XX where one
/// is unknown), the chip's check and the code's. Both checks are CRC-16/IBM-3740 over characters:
/// the chip's over the digits of all its bytes, so that two codes show that they belong together;
/// the code's over all in front of it.
inline constexpr std::size_t bytes_a_code = 64;
/// How every code begins, up to the version.
inline constexpr std::string_view code_mark = "RTCMEND";

/// One code, or two in the order of their addresses: at most 154 characters each.
std::vector<std::string> code_texts(const Image& image);

/// Finds the codes in what a reader of photographs gave: any order, any lines around, either case,
/// broken over lines. A half whose code is missing is unknown, and warned of. Refuses, with file
/// and line: a code that is cut off, that does not fit its check (with the likely slip where only
/// one fits), or that belongs to another chip or another reading of it.
Found read_code_text(std::string_view content, const std::string& where,
                     const ReadingOptions& options);

/// The codes, one a line.
std::string write_code_text(const Image& image);

}  // namespace rtcmend
