"""`backbud tidy`: line up the details in files, changing no meaning."""

from __future__ import annotations

from argparse import Namespace

from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FINE, PROBLEMS, Misuse
from backbud.say import say, warn


def add_options(parser: ArgumentParser) -> None:
    """The files."""
    parser.add_argument("files", nargs="+", metavar="FILE", help="a file of cards or diary")


def run(options: Namespace) -> int:
    """Tidy each file, and say what became of it."""
    from backbud_grammar.tidy import TidyError
    from backbud_grammar.tidy_file import tidy_file

    status = FINE
    for name in options.files:
        try:
            changed = tidy_file(name)
        except OSError as error:
            raise Misuse(f"{name} cannot be tidied: {error.strerror}") from None
        except TidyError as error:
            warn(f"backbud: {name} was left alone: {error}")
            status = PROBLEMS
            continue
        say(f"{name}: {'tidied' if changed else 'was tidy'}")
    return status
