// Words as a layout file may hold them, completed by the scripts that bash, zsh and fish are given
// and then run in the line, in a shell that may do nothing: an empty environment, no programs to be
// found, nothing to be written (ulimit -f 0). The tripwire: the line must come to the very word, so
// that nothing in it was expanded, and no command may have been looked for.
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <fmt/format.h>
#include <string>
#include <sys/wait.h>
#include <unistd.h>

#include "cli/completion.h"
#include "nameless_file.h"
#include "target.h"

namespace rtcmend::fuzz {

namespace {

constexpr std::string_view bash_before = R"(PATH=/nonexistent
LC_ALL=C
IFS= read -r -d '' given < "$WORD_FILE"
compopt() { :; }
completing() { printf '%s\n' "$given"; }
)";

constexpr std::string_view bash_behind = R"(
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

// Zsh quotes as it inserts, so there must be a line to insert into: a second shell behind a
// pseudo-terminal, which says itself what became of its line, between bytes that no word has.
constexpr std::string_view zsh_before = R"(PS1= PS2=
setopt no_prompt_sp
compdef() { : }
IFS= read -r -d '' given < $WORD_FILE
completing() { print -r -- $given }
)";

constexpr std::string_view zsh_behind = R"(
zle -C complete-it complete-word _rtcmend
bindkey '^I' complete-it
command_not_found_handler() { print -r $'\2tripped\3' }
judge() {
  local line=${BUFFER#completing amend x --set }
  BUFFER=
  ulimit -f 0
  setopt restricted
  eval "set -- $line"
  if [[ $# == 1 && $1 == $given ]]; then
    print -r $'\2the very word\3'
  else
    print -r $'\2another line\3' ${(V)line}
  fi
  exit
}
zle -N judge
bindkey '^G' judge
)";

constexpr std::string_view zsh_outside = R"(zmodload zsh/zpty
zpty z /bin/zsh -f -i
zpty -w z 'PATH=/nonexistent; source $INNER'
zpty -w -n z $'completing amend x --set \t\x07'
while zpty -r z line; do
  case $line in
    (*$'\2tripped\3'*|*$'\2another line\3'*) print -r -- $line; exit ;;
    (*$'\2the very word\3'*) print -rn 'the very word'; exit ;;
  esac
done
)";

constexpr std::string_view fish_before = R"(read -z -g given < $WORD_FILE
set -g PATH /nonexistent
function fish_command_not_found
  printf tripped
end
function completing
  printf '%s\n' $given
end
)";

// What is not offered cannot do harm: a word that begins with ~, and one with a dot, which fish
// hides like a file of such a name until the dot is typed.
constexpr std::string_view fish_behind = R"(
complete -c completing -f -a '(__rtcmend_words)'
set -l found (complete -C 'completing amend x --set ' --escape)
if test (count $found) = 0; and string match -q -r '^[~.]' -- $given
  printf 'the very word'
  exit
end
set -l line (string split -m1 \t -- $found[1])[1]
ulimit -f 0
eval "set -g words $line"
if test (count $words) = 1; and test "$words[1]" = "$given"
  printf 'the very word'
else
  printf 'another line: %s' $line
end
)";

std::string path_of(const NamelessFile& file) {
  return fmt::format("/proc/{}/fd/{}", ::getpid(), file.number());
}

/// Runs a script in a shell; its output.
std::string output_of(const std::string& shell, const std::string& environment,
                      const std::string& script) {
  const std::string line =
      fmt::format("env -i HOME=/nonexistent {} {} {} 2>&1", environment, shell, script);
  std::FILE* pipe = ::popen(line.c_str(), "r");
  must(pipe != nullptr, "a shell can be started");
  std::string text;
  for (;;) {
    errno = 0;
    const int c = std::fgetc(pipe);
    if (c != EOF) {
      text += static_cast<char>(c);
      continue;
    }
    if (errno != EINTR) break;  // libFuzzer's own alarm interrupts what reads
    std::clearerr(pipe);
  }
  if (const int status = ::pclose(pipe); WIFSIGNALED(status) || WEXITSTATUS(status) > 1)
    text += fmt::format(" (it ended with {:X}h)", status);
  return text;
}

bool is_there(const char* shell) {
  return ::access(shell, X_OK) == 0;
}

void hold(const char* shell, const std::string& told) {
  if (told != "the very word") std::fprintf(stderr, "%s: %s\n", shell, told.c_str());
  must(told == "the very word", "a completed word is taken as it is, and nothing is run");
}

std::string script_of(std::string_view before, const char* shell, std::string_view behind) {
  return std::string(before) + completion_script(shell) + std::string(behind);
}

}  // namespace

void attempt(std::string_view input) {
  // What the program itself prints in a line: printable, and no help behind it.
  std::string word(input.substr(0, 64));
  for (const char c : word)
    if (static_cast<unsigned char>(c) < ' ' || c == '\x7F') return;
  if (word.empty() || word == ":files") return;
  word += '\0';
  static NamelessFile script, outside, file;
  file.fill(word);
  const std::string words = "WORD_FILE=" + path_of(file);

  script.fill(script_of(bash_before, "bash", bash_behind));
  hold("bash", output_of("/bin/bash --norc --noprofile", words, path_of(script)));
  if (is_there("/bin/zsh")) {
    script.fill(script_of(zsh_before, "zsh", zsh_behind));
    outside.fill(std::string(zsh_outside));
    hold("zsh", output_of("/bin/zsh -f", words + " INNER=" + path_of(script), path_of(outside)));
  }
  if (is_there("/usr/bin/fish")) {
    script.fill(script_of(fish_before, "fish", fish_behind));
    hold("fish", output_of("/usr/bin/fish --no-config", words, path_of(script)));
  }
}

}  // namespace rtcmend::fuzz
