"""`backbud visits`: other people's trees in the house, what was agreed, done, waits and is open."""

from __future__ import annotations

from argparse import Namespace

from backbud.commands.answers import print_json
from backbud.commands.journal import journal_options, session_of, status_of
from backbud.commands.parser import ArgumentParser
from backbud.say import say
from backbud.tongue import in_english


def add_options(parser: ArgumentParser) -> None:
    """The journal and the day; all visits, or those of trees that are here."""
    parser.add_argument("--all", action="store_true", help="those that have ended, too")
    journal_options(parser)


def run(options: Namespace) -> int:
    """Print the visits."""
    from backbud.views.visit import in_the_house, to_come
    from backbud.visits_report import visit_lines

    session = session_of(options)
    accounts = session.accounts()
    visits = in_the_house(accounts)
    if options.all:
        visits = tuple(one for account in accounts for one in account.visits)
    if options.json:
        print_json(visits)
    elif options.all:
        from backbud.visits_report import account_lines

        say(
            *in_english(
                lambda: (line for one in accounts for line in account_lines(one, session.today))
            )
        )
    else:
        say(*in_english(lambda: visit_lines(visits, session.today, to_come(accounts))))
    return status_of(session)
