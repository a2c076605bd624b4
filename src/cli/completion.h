#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rtcmend {

/// The word with which a shell's script asks for completions: "rtcmend __complete WORD ...".
inline constexpr std::string_view complete_word = "__complete";

/// What may stand where the cursor is.
struct Completion {
  std::string word;  ///< the whole word, "floppy_a=1.44M"
  std::string help;  ///< a line about it; may be empty
};

struct Completions {
  std::vector<Completion> words;  ///< those that begin with what is typed already
  bool files = false;             ///< a file's name fits as well
};

/// What may follow. `words`: all behind "rtcmend", the last one being typed, perhaps empty. Drawn
/// from the table of commands, the options as declared, the layouts and the catalogues. Never
/// throws for what was typed.
Completions complete(const std::vector<std::string>& words);

/// The script that makes a shell ask for completions: "bash", "zsh" or "fish". Refuses (Error)
/// another name.
std::string completion_script(std::string_view shell);

}  // namespace rtcmend
