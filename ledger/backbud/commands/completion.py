"""`backbud completion`: what makes a shell complete commands, options and handles."""

from __future__ import annotations

from argparse import REMAINDER, SUPPRESS, Namespace

from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FINE
from backbud.say import say

# Each asks `backbud completion words` with the words up to the cursor; where it answers nothing,
# the shell completes the names of files.
SCRIPTS = {
    "bash": r"""_backbud() {
    local IFS=$'\n'
    COMPREPLY=($(backbud completion words "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null))
}
complete -o default -F _backbud backbud""",
    "zsh": r"""#compdef backbud
_backbud() {
    local -a found
    found=(${(f)"$(backbud completion words "${(@)words[2,CURRENT]}" 2>/dev/null)"})
    if (( ${#found} )); then compadd -a found; else _files; fi
}
(( $+functions[compdef] )) || { autoload -Uz compinit && compinit; }
compdef _backbud backbud""",
    "fish": r"""function __backbud_words
    set -l words (commandline --tokenize --cut-at-cursor --current-process)[2..]
    backbud completion words $words (commandline --current-token --cut-at-cursor) 2>/dev/null
end
complete --command backbud --arguments '(__backbud_words)'""",
}


# What the scripts ask in a shell's place; nobody types it.
_WORDS = "words"


class _Shells(tuple[str, ...]):
    """The shells, as a person chooses from them; the scripts may say one word more."""

    __slots__ = ()

    def __contains__(self, word: object) -> bool:
        return word == _WORDS or super().__contains__(word)


def add_options(parser: ArgumentParser) -> None:
    """The shell."""
    parser.add_argument(
        "shell",
        choices=_Shells(SCRIPTS),
        metavar="SHELL",
        help="bash, zsh or fish: prints what to put into its settings "
        '(bash: eval "$(backbud completion bash)" in ~/.bashrc; zsh likewise in ~/.zshrc; '
        "fish: backbud completion fish > ~/.config/fish/completions/backbud.fish)",
    )
    typed = parser.add_argument("typed", nargs=REMAINDER, metavar="", help=SUPPRESS)
    typed.required = False  # argparse would name it among what is missing


def run(options: Namespace) -> int:
    """Print the script of a shell, or what the last of some words can become."""
    if options.shell in SCRIPTS:
        say(*SCRIPTS[options.shell].splitlines())
        return FINE
    from backbud.commands.next_words import next_words

    say(*next_words(options.typed))
    return FINE
