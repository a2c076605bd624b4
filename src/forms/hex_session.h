#pragma once

#include <string>
#include <vector>

#include "forms/chip_in_file.h"
#include "forms/source_lines.h"

namespace rtcmend {

/// What a DOS debugger's screen shows besides bytes: "-d 100 17f", "-q", a lone "-", "C:\>debug",
/// "Program terminated normally".
bool is_prompt_line(std::string_view line);

/// True when a line selects a byte of the chip: "-o 70 10".
bool is_port_session(const std::vector<SourceLine>& lines);

/// Reads a session that goes through the ports: `o 70 10` selects the byte (bit 7 masks the NMI and
/// is no part of the address, RBIL61), and the lone byte below `i 71` is its value. Refuses, with
/// the line: a value nobody asked for, a missing value, a write to port 71.
Found read_port_session(const std::vector<SourceLine>& lines, const std::string& where);

}  // namespace rtcmend
