"""`backbud species`: the species that are known, and the year of one of them."""

from __future__ import annotations

import os
from argparse import Namespace

from backbud.commands.answers import print_json
from backbud.commands.journal import day_of, day_option, json_option, session_of
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FINE, Misuse
from backbud.say import say


def add_options(parser: ArgumentParser) -> None:
    """A species' name, after which the journal's folder may follow; the day."""
    parser.add_argument(
        "words", nargs="*", metavar="NAME", help="any of its names; the journal's folder may follow"
    )
    day_option(parser, "the year that holds this day")
    json_option(parser)


def run(options: Namespace) -> int:
    """Print the list of species, or the sheet of the one that was named."""
    from backbud.commands.species.find import NoSuchSpecies, known_here, sheet_here
    from backbud.commands.species.lines import list_lines, sheet_lines

    words = list(options.words)
    # The last word may be the journal: names have several words.
    options.folder = words.pop() if words and os.path.isdir(words[-1]) else ""
    session = session_of(options) if options.folder or _is_in_a_journal() else None
    if not words:
        known = known_here(session)
        if options.json:
            print_json(known)
        else:
            say(*list_lines(known))
        return FINE
    try:
        sheet = sheet_here(" ".join(words), session, day_of(options)[0])
    except NoSuchSpecies as error:
        raise Misuse(str(error)) from None
    if options.json:
        print_json(sheet)
    else:
        say(*sheet_lines(sheet))
    return FINE


def _is_in_a_journal() -> bool:
    from backbud.journal.find import find_journal

    return find_journal(os.getcwd()) is not None
