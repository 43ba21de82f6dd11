"""`backbud pots`: the pots, the free ones first, with what they hold and who is in them."""

from __future__ import annotations

from argparse import Namespace

from backbud.commands.answers import print_json
from backbud.commands.journal import journal_options, session_of, status_of
from backbud.commands.parser import ArgumentParser
from backbud.say import say
from backbud.tongue import in_english


def add_options(parser: ArgumentParser) -> None:
    """The journal and the day."""
    journal_options(parser)


def run(options: Namespace) -> int:
    """Print the pots."""
    from backbud.collection.fold import tree_on
    from backbud.lists_report import pots_lines
    from backbud.views.listed import pot_rows

    session = session_of(options)
    histories, things = session.histories, session.journal.things
    trees = [tree_on(histories, things, handle, session.today) for handle in histories.trees]
    rows = pot_rows(things, trees, session.journal.settings.figures)
    if options.json:
        print_json(rows)
    else:
        say(*in_english(lambda: pots_lines(rows)))
    return status_of(session)
