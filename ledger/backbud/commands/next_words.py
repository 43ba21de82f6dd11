"""What the last word of a command line can become: a command, an option, a handle."""

from __future__ import annotations

import os
import re
from argparse import Action
from collections.abc import Iterator, Sequence
from importlib import import_module

from backbud.commands.every import COMMANDS
from backbud.commands.parser import ArgumentParser

# By what an option or a word is called in the help, the kind of card whose handles it takes.
_TAKES = {
    "HANDLE": "tree",
    "TREE": "tree",
    "ID": "tree",
    "PERSON": "person",
    "WHOM": "person",
    "PLACE": "place",
}
_CARD = re.compile(r"^(tree|person|place)[ \t]+([\w-]+)[ \t]*$", re.MULTILINE)
# A line that names a new handle: `struck 50 cuttings, as little-red`.
_BEGETS = "struck|sown|grafted|layered|separated|collected|parted-off"
_NEW = re.compile(rf"^[ \t]+(?:{_BEGETS})\b[^\n#]*? as ([\w-]+)", re.MULTILINE)


def next_words(typed: Sequence[str]) -> tuple[str, ...]:
    """What the last of the words that were typed behind `backbud` can become, in order. Nothing
    where only the name of a file can stand there, or where nothing is known."""
    *before, begun = typed or [""]
    if not before:
        found: Iterator[str] = iter([*COMMANDS, "--help", "--version"])
    elif before[0] in COMMANDS:
        found = _of_command(before[0], before[1:], begun)
    else:
        found = iter(())
    return tuple(sorted({word for word in found if word.startswith(begun)}))


def _of_command(command: str, before: Sequence[str], begun: str) -> Iterator[str]:
    parser = ArgumentParser(prog=command)
    import_module(f"backbud.commands.{command}").add_options(parser)
    actions = parser._actions
    options = {name: action for action in actions for name in action.option_strings}
    waiting = options.get(before[-1]) if before else None
    if waiting is not None and waiting.nargs != 0:
        yield from _values(waiting, before)
    elif begun.startswith("-"):
        yield from (name for name in options if name.startswith("--") and name not in before)
    else:
        places = [action for action in actions if not action.option_strings]
        filled = sum(1 for _ in _words_in(before, options))
        # Behind the last there is a folder, a file, or words that are told nowhere.
        if filled < len(places):
            yield from _values(places[filled], before)


def _words_in(before: Sequence[str], options: dict[str, Action]) -> Iterator[str]:
    """The words that are neither an option nor its value."""
    takes_next = False
    for word in before:
        if not takes_next and not word.startswith("-"):
            yield word
        known = None if takes_next else options.get(word)
        takes_next = known is not None and known.nargs != 0


def _values(action: Action, before: Sequence[str]) -> Iterator[str]:
    if action.choices is not None:
        yield from map(str, action.choices)
        return
    kind = _TAKES.get(str(action.metavar or ""), "")
    if kind:
        yield from handles(kind, before)
    if action.metavar == "WHOM":
        yield from ("helper", "public")


def handles(kind: str, words: Sequence[str]) -> Iterator[str]:
    """The handles of the cards of a kind in the journal that the words name, or that this folder is
    in; of trees those too that the diary names first. Read as text, line by line: no more is known
    of them, and nothing is run."""
    from backbud.journal.find import find_files, find_journal
    from backbud.publish.plain import read_plain

    named = next((word for word in words if os.path.isfile(os.path.join(word, "backbud.toml"))), "")
    folder = named or find_journal(os.getcwd())
    if not folder:
        return
    for name in find_files(folder).files:
        content = (read_plain(folder, name) or b"").decode("utf-8", "replace")
        yield from (handle for found, handle in _CARD.findall(content) if found == kind)
        if kind == "tree":
            yield from _NEW.findall(content)
