"""The parser of a command line, whose words to the person are said as all others are."""

from __future__ import annotations

import argparse
import sys
from typing import IO, Any, NoReturn

from backbud.say import say, warn
from backbud_grammar.shown import shown


class ArgumentParser(argparse.ArgumentParser):
    """argparse's own, but for how it prints, and that options may stand between the words."""

    _are_mixed = False

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> Any:
        """As argparse does it, and once more where words were left behind an option.

        argparse fills every place for a word, also one that may stay empty, from the first run of
        words: of `tree hoshi --json yard` it would leave the yard.
        """
        found, left = super().parse_known_args(args, namespace)
        if self._are_mixed or self._subparsers or all(word.startswith("-") for word in left):
            return found, left
        self._are_mixed = True
        try:
            return self.parse_known_intermixed_args(args, namespace)
        finally:
            self._are_mixed = False

    def error(self, message: str) -> NoReturn:
        # Whatever was given stands in one line of the message.
        super().error(shown(message))

    def _print_message(self, message: str, file: IO[str] | Any | None = None) -> None:
        (say if file is sys.stdout else warn)(*message.splitlines())
