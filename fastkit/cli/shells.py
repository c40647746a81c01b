"""
How bash, zsh and fish ask: one script each, which hands over the line up to the cursor as typed.

Python takes the line apart, so a colon, an equals sign or a quote mean the same in each of them.
What fails prints nothing into the line that somebody is typing.
"""

import os
import re
from pathlib import Path
from typing import Any

from click.shell_completion import (
    CompletionItem,
    ShellComplete,
    add_completion_class,
    split_arg_string,
)

MARK = "\x1f"  # stands at the cursor while a line is taken apart
BARE = re.compile(r"([^\w@%+=:,./-])")  # what a shell would not take as it stands

# readline cuts a word behind its breaks (of ours `:` and `=`) and before an `@`, and replaces the
# last piece alone
BASH = r"""
%(complete_func)s() {
    local what value told
    COMPREPLY=()
    while IFS=$'\t' read -r what value told; do
        case $what in
            file) compopt -o default ;;
            dir) compopt -o dirnames ;;
            plain) [[ $value == *: ]] && compopt -o nospace; COMPREPLY+=("$value") ;;
        esac
    done <<< "$(COMP_WORDS="${COMP_LINE:0:COMP_POINT}" COMP_BREAKS="$COMP_WORDBREAKS" \
        %(complete_var)s=bash_complete %(prog_name)s 2>/dev/null)"
}
if (( BASH_VERSINFO[0] * 100 + BASH_VERSINFO[1] < 404 )); then
    echo "%(prog_name)s: completion needs bash 4.4 or newer" >&2
else
    complete -o nosort -F %(complete_func)s %(prog_name)s
fi
"""
ZSH = r"""#compdef %(prog_name)s
%(complete_func)s() {
    local what value told
    local -a values open texts
    while IFS=$'\t' read -r what value told; do
        case $what in
            file) _files ;;
            dir) _files -/ ;;
            plain)
                if [[ $value == *: ]]; then open+=("$value"); else values+=("$value"); fi
                [[ -n $told ]] && texts+=("$value  $told") ;;
        esac
    done <<< "$(COMP_WORDS="${(j: :)words[1,CURRENT-1]} $QIPREFIX$PREFIX" \
        %(complete_var)s=zsh_complete %(prog_name)s 2>/dev/null)"
    (( $#open )) && compadd -U -S '' -V fastkit -a open
    (( $#values )) || return
    if (( $#texts == $#values )); then compadd -U -l -d texts -V fastkit -a values
    else compadd -U -V fastkit -a values; fi
}
(( ${+functions[compdef]} )) || { autoload -Uz compinit && compinit -i }
if [[ ${zsh_eval_context[-1]} == loadautofunc ]]; then %(complete_func)s "$@"
else compdef %(complete_func)s %(prog_name)s; fi
"""
FISH = r"""
function %(complete_func)s
    for line in (env COMP_WORDS=(commandline -cp | string collect) \
            %(complete_var)s=fish_complete %(prog_name)s 2>/dev/null)
        set -l cells (string split \t -- $line)
        switch $cells[1]
            case file
                __fish_complete_path $cells[2]
            case dir
                __fish_complete_directories $cells[2]
            case plain
                string join \t -- $cells[2..]
        end
    end
end
complete --no-files --command %(prog_name)s --arguments "(%(complete_func)s)"
"""


class Typed(ShellComplete):
    """Takes the line up to the cursor apart; answers in lines of type, word and help."""

    begun = ""  # the word so far
    before = ""  # what of it the answer repeats: `--damage=`
    quoted = False  # whether it stands in quotes

    def get_completion_args(self) -> tuple[list[str], str]:
        """Words before the one at the cursor, and that one so far."""
        line = os.environ["COMP_WORDS"]
        *words, begun = split_arg_string(line + MARK)
        self.begun = begun.removesuffix(MARK)
        self.quoted = split_arg_string(f"{line} {MARK}")[-1] != MARK
        option, equals, _ = self.begun.partition("=")
        if equals and option.startswith("--"):
            self.before = option + equals
        named = (n for n, word in enumerate(words) if Path(word).name == self.prog_name)
        return words[next(named, 0) + 1 :], self.begun

    def format_completion(self, item: CompletionItem[Any]) -> str:
        """One line; what stands before an equals sign comes again."""
        told = (item.help or "").replace("\n", " ").replace("\t", " ")
        return "\t".join((item.type, self.word(item), told)).rstrip("\t")

    def word(self, item: CompletionItem[Any]) -> str:
        """The whole word, as the shell puts it into the line."""
        return f"{self.before}{item.value}"


class Bash(Typed):
    """Puts in what it is given: the piece behind the last break, with what is special quoted."""

    name = "bash"
    source_template = BASH

    def word(self, item: CompletionItem[Any]) -> str:
        """The piece of the word that readline replaces."""
        whole = super().word(item)
        if self.quoted:
            return whole
        breaks = os.environ.get("COMP_BREAKS", "")
        cut = max([0, *(self.begun.rfind(sign) + (sign != "@") for sign in breaks)])
        return BARE.sub(r"\\\1", whole[cut:])


class Zsh(Typed):
    """Quotes by itself."""

    name = "zsh"
    source_template = ZSH


class Fish(Typed):
    """Quotes by itself."""

    name = "fish"
    source_template = FISH


def register() -> None:
    """Let the shells ask in our way."""
    for shell in (Bash, Zsh, Fish):
        add_completion_class(shell)
