"""`backbud why`: the chain of reasons of what is due, or of all that a tree has."""

from __future__ import annotations

from argparse import Namespace
from typing import TYPE_CHECKING

from backbud.commands.answers import print_json
from backbud.commands.journal import journal_options, session_of, status_of
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import Misuse
from backbud.say import say

if TYPE_CHECKING:
    from backbud.plan.run import Plan
    from backbud.session import Session


def add_options(parser: ArgumentParser) -> None:
    """What is asked about; the journal and the day."""
    parser.add_argument(
        "id", metavar="ID", help="a follow-up's id, or a part of it; or a tree, for all that it has"
    )
    journal_options(parser)


def run(options: Namespace) -> int:
    """Print the reasons of one follow-up, or of every one of a tree."""
    session = session_of(options)
    named = session.tree_handle(options.id)
    handle = named or session.tree_of_id(options.id)
    plan = session.plan([handle] if handle else None)
    if named:
        return _of_tree(options, session, plan, named)
    from backbud.views.day import all_works, works_called

    found = works_called(options.id, all_works(plan, session.names(), session.today))
    if not found:
        raise Misuse(f"nothing due has the id “{options.id}”. backbud due --json prints the ids.")
    if options.json:
        print_json(found)
    else:
        from backbud.report import why_lines

        open_ones = [work for work in found if work.is_open]
        for work in open_ones or found:
            say(*why_lines(work, session.today))
    return status_of(session)


def _of_tree(options: Namespace, session: Session, plan: Plan, handle: str) -> int:
    from backbud.views.day import all_works, open_first

    works = all_works(plan.only([handle]), session.names(), session.today)
    found = open_first(works, session.today)
    if options.json:
        print_json(found)
    else:
        from backbud.report import why_tree_lines

        say(*why_tree_lines(found, session.today))
    return status_of(session)
