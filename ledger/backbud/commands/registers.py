"""`backbud registers`: treatments, plants in and out, stock, and unpaid bills."""

from __future__ import annotations

from argparse import Namespace

from backbud.commands.answers import print_json
from backbud.commands.journal import journal_options, session_of, status_of
from backbud.commands.parser import ArgumentParser
from backbud.say import say
from backbud.tongue import in_english

NAMES = ("treatments", "plants", "stock", "unpaid")


def add_options(parser: ArgumentParser) -> None:
    """Which register; the journal and the day; the form."""
    parser.add_argument("--only", choices=NAMES, default="", help="this register alone")
    parser.add_argument("--csv", action="store_true", help="print CSV; with --only")
    journal_options(parser)


def run(options: Namespace) -> int:
    """Print the registers."""
    from backbud.commands.status import Misuse
    from backbud.registers_report import register_lines
    from backbud.views.registers.register import csv_of

    if options.csv and not options.only:
        raise Misuse(f"--csv prints one register: name it with --only ({', '.join(NAMES)}).")
    session = session_of(options)
    found = [one for one in session.registers() if options.only in ("", one.register)]
    if options.json:
        print_json(found)
    elif options.csv:
        say(*csv_of(found[0]).decode().splitlines())
    else:
        say(*in_english(lambda: (line for one in found for line in register_lines(one))))
    return status_of(session)
