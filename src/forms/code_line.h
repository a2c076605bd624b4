#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/ranges.h"

namespace rtcmend {

/// The version of the form, the sign for an unknown byte.
inline constexpr int code_version = 1;
inline constexpr std::string_view unknown_in_code = "XX";

/// CRC-16/IBM-3740 over characters, as four hex digits.
std::string check_of(std::string_view text);

/// A text as codes are looked for in it: capitals without blanks and line ends, each with the line
/// that it stands in, so that a code which a mail program broke is still whole.
struct CodeLetters {
  std::string text;
  std::vector<std::size_t> lines;  ///< as many as letters
};

CodeLetters code_letters(std::string_view content);
/// Where codes begin in such letters: at the mark, or, where a slip has spoilt that, at what stands
/// behind it.
std::vector<std::size_t> code_places(std::string_view letters);

/// One code that fits its own check (code_text.h says what is in it).
struct CodeLine {
  std::size_t line;        ///< where it begins
  std::size_t size;        ///< of the chip
  Address first;           ///< of the bytes
  std::string digits;      ///< of the bytes, XX for an unknown one
  std::string chip_check;  ///< four digits

  /// "00h to 3Fh".
  std::string range() const;
};

/// The code that begins at a place. Refuses, with the line, one that is cut off, whose parts are
/// not what they must be, or that does not fit its check.
CodeLine code_at(const CodeLetters& letters, std::size_t at, const std::string& where);

}  // namespace rtcmend
