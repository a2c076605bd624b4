// Words as a layout file may hold them, completed by the script that bash is given and then run in
// the line, in a shell that may do nothing: an empty environment, no programs to be found, no
// redirections (bash -r), nothing to be written (ulimit -f 0). The tripwire: the line must come to
// the very word, so that nothing in it was expanded, and no command may have been looked for.
#include <cstdio>
#include <fmt/format.h>
#include <string>
#include <sys/wait.h>
#include <unistd.h>

#include "cli/completion.h"
#include "nameless_file.h"
#include "target.h"

namespace rtcmend::fuzz {

namespace {

/// Runs the script; its output, and whether it came to its end.
std::string output_of(const std::string& script, const std::string& word_file) {
  const std::string line =
      fmt::format("env -i WORD_FILE={} /bin/bash --norc --noprofile {} 2>&1", word_file, script);
  std::FILE* pipe = ::popen(line.c_str(), "r");
  must(pipe != nullptr, "a shell can be started");
  std::string text;
  for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) text += static_cast<char>(c);
  ::pclose(pipe);
  return text;
}

constexpr const char* before = R"(PATH=/nonexistent
LC_ALL=C
IFS= read -r -d '' given < "$WORD_FILE"
compopt() { :; }
completing() { printf '%s\n' "$given"; }
)";

constexpr const char* behind = R"(
COMP_WORDS=(completing amend x --set '')
COMP_CWORD=4
COMP_WORDBREAKS=$' \t\n"\'><=;|&(:'
_rtcmend
line=${COMPREPLY[0]}
ulimit -f 0
set -r
command_not_found_handle() { printf 'tripped'; }
eval "set -- $line"
[[ $# == 1 && $1 == "$given" ]] && printf 'the very word'
)";

}  // namespace

void attempt(std::string_view input) {
  // What the program itself prints in a line: printable, and no help behind it.
  std::string word(input.substr(0, 64));
  for (const char c : word)
    if (static_cast<unsigned char>(c) < ' ' || c == '\x7F') return;
  if (word.empty() || word == ":files") return;
  word += '\0';
  static NamelessFile script, file;
  file.fill(word);
  script.fill(before + completion_script("bash") + behind);
  const auto here = [](const NamelessFile& some) {
    return fmt::format("/proc/{}/fd/{}", ::getpid(), some.number());
  };
  const std::string told = output_of(here(script), here(file));
  if (told != "the very word") std::fprintf(stderr, "%s\n", told.c_str());
  must(told == "the very word", "a completed word is taken as it is, and nothing is run");
}

}  // namespace rtcmend::fuzz
