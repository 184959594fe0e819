#pragma once

#include <array>
#include <string_view>

// What hands the shell's words to `roundbook complete next` and its answers to the shell. What can
// follow is known by the program alone.
namespace cli {

struct ShellScript {
  std::string_view shell;
  std::string_view text;
};

inline constexpr std::array kShellScripts{
    ShellScript{"bash", R"sh(# bash completion for roundbook
_roundbook() {
  local line=${COMP_LINE:0:COMP_POINT} cur one rest
  local -a words
  read -ra words <<< "$line"
  [[ $line == *[[:space:]] ]] && words+=("")
  cur=${words[-1]}
  COMPREPLY=()
  while IFS=$'\t' read -r one rest; do
    # Where = parts words, bash has only what follows it.
    [[ $COMP_WORDBREAKS == *=* && $cur == *=* ]] && one=${one#"${cur%=*}="}
    COMPREPLY+=("$(printf '%q' "$one")")
  done < <("${words[0]}" complete next -- "${words[@]:1}" 2> /dev/null)
  if [[ ${#COMPREPLY[@]} == 1 && ${COMPREPLY[0]} == *= ]]; then compopt -o nospace; fi
}
complete -o default -F _roundbook roundbook
)sh"},
    ShellScript{"zsh", R"sh(#compdef roundbook
local one rest
local -a found open
while IFS=$'\t' read -r one rest; do
  if [[ $one == *= ]]; then open+=("$one"); else found+=("$one"); fi
done < <(${words[1]} complete next -- "${(@Q)words[2,CURRENT]}" 2> /dev/null)
if (( ${#found} + ${#open} == 0 )); then
  _files
else
  compadd -a found
  compadd -S '' -a open
fi
)sh"},
    ShellScript{"fish", R"sh(# fish completion for roundbook
function __roundbook_next
    set -l words (commandline -opc) (commandline -ct)
    set -l found (command $words[1] complete next -- $words[2..-1] 2> /dev/null)
    if test (count $found) -eq 0
        __fish_complete_path (commandline -ct)
    else
        printf '%s\n' $found
    end
end
complete -c roundbook -f -a '(__roundbook_next)'
)sh"},
};

}  // namespace cli
