#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/completion.h"

namespace rtcmend {

namespace {

// Bash cuts words at "=": they are put together again first, and taken apart for the answer.
constexpr std::string_view bash_script = R"script(_rtcmend() {
  local words=() files=0 line word i cur front names
  for ((i = 1; i <= COMP_CWORD; i++)); do
    word=${COMP_WORDS[i]}
    if ((i > 1)) && [[ $word == = || ${COMP_WORDS[i - 1]} == = ]]; then
      words[${#words[@]} - 1]+=$word
    else
      words+=("$word")
    fi
  done
  cur=${words[${#words[@]} - 1]}
  front=
  [[ $cur == *=* ]] && front=${cur%"${cur##*=}"}
  COMPREPLY=()
  while IFS= read -r line; do
    if [[ $line == :files ]]; then
      files=1
      continue
    fi
    word=${line%%$'\t'*}
    [[ $COMP_WORDBREAKS == *=* ]] && word=${word#"$front"}
    COMPREPLY+=("$word")
  done < <("${COMP_WORDS[0]}" __complete "${words[@]}" 2>/dev/null)
  # Words come from layout files too, and what stands in the line is run: the shell must see them as
  # they are. Where names of files are among them, readline itself quotes (compopt -o filenames).
  if ((!files)); then
    for ((i = 0; i < ${#COMPREPLY[@]}; i++)); do
      printf -v "COMPREPLY[i]" %q "${COMPREPLY[i]}"
    done
  fi
  if ((files)); then
    mapfile -t names < <(compgen -f -- "${cur#"$front"}")
    COMPREPLY+=("${names[@]}")
    compopt -o filenames 2>/dev/null
  fi
  if ((${#COMPREPLY[@]} == 1)) && [[ ${COMPREPLY[0]} == *= ]]; then
    compopt -o nospace 2>/dev/null
  fi
}
complete -F _rtcmend rtcmend
)script";

constexpr std::string_view zsh_script = R"script(_rtcmend() {
  local line word files=0
  local -a whole open shown_whole shown_open
  for line in "${(@f)$("${words[1]}" __complete "${(@Q)words[2,CURRENT]}" 2>/dev/null)}"; do
    if [[ $line == :files ]]; then
      files=1
      continue
    fi
    word=${line%%$'\t'*}
    [[ -z $word ]] && continue
    if [[ $word == *= ]]; then
      open+=("$word")
      shown_open+=("$word  ${line#*$'\t'}")
    else
      whole+=("$word")
      shown_whole+=("$word  ${line#*$'\t'}")
    fi
  done
  (( ${#whole} )) && compadd -l -d shown_whole -a whole
  (( ${#open} )) && compadd -l -S '' -d shown_open -a open
  (( files )) && _files
  return 0
}
if [[ $funcstack[1] == _rtcmend ]]; then
  _rtcmend "$@"
else
  compdef _rtcmend rtcmend
fi
)script";

constexpr std::string_view fish_script = R"script(function __rtcmend_lines
  set -l done (commandline -opc)
  set -l typing (commandline -ct)
  $done[1] __complete $done[2..-1] "$typing" 2>/dev/null
end
# Fish quotes what it completes, but for a ~ at the beginning: such words are left to be typed.
function __rtcmend_words
  __rtcmend_lines | string match -v ':files' | string match -v '~*'
end
function __rtcmend_wants_files
  __rtcmend_lines | string match -q ':files'
end
complete -c rtcmend -f -a '(__rtcmend_words)'
complete -c rtcmend -n __rtcmend_wants_files -F
)script";

/// Every command with its examples, for whoever opens the script.
std::string examples() {
  std::string text;
  for (const Command& command : commands()) {
    Options options(std::string(command.name), std::string(command.summary));
    command.set_up(options);
    text += fmt::format("# {}: {}\n", command.name, command.summary);
    for (const std::string& line : options.examples()) text += fmt::format("#   {}\n", line);
  }
  return text;
}

std::string with_head(std::string_view first_line, std::string_view script) {
  return fmt::format(
      "{}# Completion for rtcmend {}: it asks the program itself, so that fields and layouts are\n"
      "# always the ones that this program knows.\n#\n{}\n{}",
      first_line, RTCMEND_VERSION, examples(), script);
}

}  // namespace

std::string completion_script(std::string_view shell) {
  if (shell == "bash") return with_head("", bash_script);
  if (shell == "zsh") return with_head("#compdef rtcmend\n", zsh_script);
  if (shell == "fish") return with_head("", fish_script);
  const auto near = nearest(shell, {"bash", "zsh", "fish"});
  refuse("SHELL", fmt::format("there is no script for \"{}\"", printable(shell)),
         near.empty() ? "bash, zsh or fish" : join(near, " or "));
}

}  // namespace rtcmend
