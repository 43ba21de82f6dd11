"""`backbud account`: what a person's trees came to, what was billed, paid, and is open."""

from __future__ import annotations

from argparse import Namespace

from backbud.commands.answers import print_json
from backbud.commands.journal import journal_options, session_of, status_of
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import Misuse
from backbud.commands.who_is_meant import known_person
from backbud.say import say
from backbud.tongue import in_english


def add_options(parser: ArgumentParser) -> None:
    """The person; the journal and the day."""
    parser.add_argument(
        "person", metavar="PERSON", help="whose; by the short name of the person's card"
    )
    journal_options(parser)


def run(options: Namespace) -> int:
    """Print the account."""
    from backbud.visits_report import account_lines

    session = session_of(options)
    card = known_person(session, options.person)
    found = next((one for one in session.accounts() if one.person == card.handle), None)
    if found is None:
        raise Misuse(f"nothing is written of trees, bills or payments of {card.title}.")
    if options.json:
        print_json(found)
    else:
        say(*in_english(lambda: account_lines(found, session.today)))
    return status_of(session)
