#pragma once

#include <string>
#include <string_view>

#include "forms/chip_in_file.h"

namespace rtcmend {

/// Intel HEX, record types 00 to 05 (IntelHex). Refuses with the line number: a wrong check byte or
/// length, a byte past the chip, records that disagree, a missing end record, anything behind it.
Found read_intel_hex(std::string_view content, const std::string& where,
                     const ReadingOptions& options);

/// Data records of up to 16 bytes and the end record; unknown bytes are left out.
std::string write_intel_hex(const Image& image);

}  // namespace rtcmend
