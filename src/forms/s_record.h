#pragma once

#include <string>
#include <string_view>

#include "forms/chip_in_file.h"

namespace rtcmend {

/// S-records S0-S3, S5, S7-S9 (M68000PRM, appendix C). Refuses with the line number: a wrong check
/// byte, length or count, a byte past the chip, records that disagree, anything behind the end
/// record. A file without end record is read when its count record shows that it is complete.
Found read_s_record(std::string_view content, const std::string& where,
                    const ReadingOptions& options);

/// A header, S1 records of up to 16 bytes, their count and the end; unknown bytes are left out.
std::string write_s_record(const Image& image);

}  // namespace rtcmend
