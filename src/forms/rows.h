#pragma once

#include <string>
#include <string_view>

#include "forms/chip_in_file.h"

namespace rtcmend {

/// Rows as the reading programs print them, made to be copied by hand:
///
///     10: 40 00 F0 00 41 80 02 80 01 27 00 00 00 00 00 00 =48
///
/// The code behind = is row_code(). Rows may come in any order; bytes of missing rows are unknown,
/// a byte may be given as ??. Refuses, with file, line and row: a row that does not fit its code,
/// with the likely slip where the code leaves few explanations; a letter in place of a digit, with
/// the likely digit; a wrong number of bytes; two copies of a row that disagree.
Found read_rows(std::string_view content, const std::string& where, const ReadingOptions& options);

/// Every row of the chip, unknown bytes as ??.
std::string write_rows(const Image& image);

}  // namespace rtcmend
