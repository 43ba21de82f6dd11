"""The parser of a command line, whose words to the person are said as all others are."""

from __future__ import annotations

import argparse
import sys
from typing import IO, Any, NoReturn

from backbud.say import say, warn
from backbud_grammar.shown import shown


class ArgumentParser(argparse.ArgumentParser):
    """argparse's own, but for how it prints."""

    def error(self, message: str) -> NoReturn:
        # Whatever was given stands in one line of the message.
        super().error(shown(message))

    def _print_message(self, message: str, file: IO[str] | Any | None = None) -> None:
        (say if file is sys.stdout else warn)(*message.splitlines())
