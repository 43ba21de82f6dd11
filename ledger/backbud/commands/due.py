"""`backbud due`: what wants doing, soonest first."""

from __future__ import annotations

from argparse import Namespace
from datetime import timedelta

from backbud.commands.answers import print_json
from backbud.commands.journal import journal_options, session_of, status_of
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import Misuse
from backbud.commands.who_is_meant import known_tree
from backbud.say import say
from backbud.tongue import in_english


def add_options(parser: ArgumentParser) -> None:
    """The journal and the day; how far ahead, and of which tree."""
    journal_options(parser)
    parser.add_argument(
        "--within", metavar="DAYS", default="42d", help="how far ahead: 14d or 6w (default: 6w)"
    )
    parser.add_argument("--tree", metavar="HANDLE", default="", help="only this tree")


def run(options: Namespace) -> int:
    """Print what is overdue, what is open now, and what opens soon."""
    within = _within(options.within)
    session = session_of(options)
    only = [known_tree(session, options.tree)] if options.tree else None
    plan = session.plan(only)
    if only is None:
        session.remember_cautions()
    today = session.today
    from backbud.views.day import all_works, due

    found = due(all_works(plan, session.names(), today), today, within)
    if options.json:
        print_json(found)
        return status_of(session)
    from backbud.report import due_lines

    say(*in_english(lambda: due_lines(found, today, within)))
    return status_of(session)


def _within(written: str) -> timedelta:
    number, unit = written[:-1], written[-1:]
    days = {"d": 1, "w": 7}.get(unit)
    if days is None:
        number, days = written, 1
    # A number of thousands of digits is no int.
    if not number.isdecimal() or len(number) > 9 or int(number) * days > 36500:
        raise Misuse(f"--within is a number of days or weeks, such as 14d or 6w, not “{written}”")
    return timedelta(days=int(number) * days)
