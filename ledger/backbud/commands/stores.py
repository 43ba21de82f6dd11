"""`backbud stores`: what is on the shelf, and what to buy for the year ahead."""

from __future__ import annotations

from argparse import Namespace
from typing import TYPE_CHECKING

from backbud.commands.answers import print_json
from backbud.commands.journal import journal_options, session_of, status_of
from backbud.commands.parser import ArgumentParser
from backbud.say import say
from backbud.tongue import in_english

if TYPE_CHECKING:
    from backbud.plan.run import Plan
    from backbud.plan.stores import Stores


def add_options(parser: ArgumentParser) -> None:
    """The journal and the day."""
    journal_options(parser)


def run(options: Namespace) -> int:
    """Print the stores."""
    from backbud.plan.contained import made_of_plan
    from backbud.plan.stores import stores_of
    from backbud.stores_report import stores_lines
    from backbud.views.shelf import shelf_view

    session = session_of(options)

    def of_plan(plan: Plan) -> Stores:
        return stores_of(session.journal, session.histories_of(plan), plan, session.today)

    stores = shelf_view(made_of_plan("the stores", session.plan(), of_plan, session.faults.meet))
    if options.json:
        print_json(stores)
    else:
        say(*in_english(lambda: stores_lines(stores, session.today.year)))
    return status_of(session)
