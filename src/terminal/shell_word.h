#pragma once

#include <string>
#include <string_view>

namespace rtcmend {

/// A name as a word of a command that is shown to be copied: as it stands where a shell takes it
/// so, else in quotes; control and invisible characters, and what is no UTF-8, as bash, zsh and ksh
/// write them ($'\x1B'). A leading dash gets "./" in front, so that it is no option.
std::string shell_word(std::string_view name);

/// Text folded like hanging() (columns.h), but never inside a command, so that it can be copied:
/// `text` says {} where it stands.
std::string hanging_with(std::string_view text, std::string_view command, std::size_t column);

}  // namespace rtcmend
