#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace rtcmend {

/// A line of a text form, without its end and without blanks behind it.
struct SourceLine {
  std::size_t number;  ///< counted from 1, as editors do
  std::string_view text;
};

/// The lines of a text form that hold anything. A byte order mark and the end-of-file mark of DOS
/// (1Ah) are left out. Throws Error (input) with file and line for a control character, and for
/// more or longer lines than any form needs. `content` is clean (clean_text.h).
std::vector<SourceLine> source_lines(std::string_view content, const std::string& where);

/// "FILE:3".
std::string place(const std::string& where, std::size_t line);

/// Text from a file made fit for a message: quoted, safe for a terminal, cut when long.
std::string in_quotes(std::string_view text);

}  // namespace rtcmend
