"""`backbud trust`: look at the code in a journal's `plugins/`, and let it run."""

from __future__ import annotations

from argparse import Namespace

from backbud.commands.journal import folder_of, folder_option
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FINE, PROBLEMS, Misuse


def add_options(parser: ArgumentParser) -> None:
    """The journal; the answer of a script, or that all trust is taken back."""
    folder_option(parser)
    answer = parser.add_mutually_exclusive_group()
    answer.add_argument(
        "--yes", metavar="DIGEST", default="", help="trust the set with this digest, in a script"
    )
    answer.add_argument("--forget", action="store_true", help="trust nothing of it any more")


def run(options: Namespace) -> int:
    """Show the code and ask."""
    from backbud.consent.ask import NotThese, take_consent_back, trust
    from backbud.consent.record import CannotRecord

    folder = folder_of(options.folder)
    try:
        if options.forget:
            take_consent_back(folder)
            return FINE
        return FINE if trust(folder, options.yes) else PROBLEMS
    except (NotThese, CannotRecord) as error:
        raise Misuse(str(error)) from None
