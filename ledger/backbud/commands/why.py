"""`backbud why`: the chain of reasons of what is due, or of all that a tree has."""

from __future__ import annotations

from argparse import Namespace
from typing import TYPE_CHECKING

from backbud.commands.answers import print_json
from backbud.commands.follow_up_json import follow_up_json
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
    found = plan.find(options.id)
    if not found:
        raise Misuse(f"nothing due has the id “{options.id}”. backbud due --json prints the ids.")
    if len(found) > 1 and not options.json:
        open_ones = [f for f in found if f.outcome == "open"]
        found = open_ones or found
    if options.json:
        print_json([follow_up_json(f, session.today) for f in found])
    else:
        from backbud.report import why_lines

        for follow_up in found:
            say(*why_lines(follow_up, plan.trees[follow_up.tree], session.today))
    return status_of(session)


def _of_tree(options: Namespace, session: Session, plan: Plan, handle: str) -> int:
    from backbud.report import open_first, why_tree_lines

    found = open_first(plan.follow_ups[handle], session.today)
    if options.json:
        print_json([follow_up_json(f, session.today) for f in found])
    else:
        say(*why_tree_lines(found, plan.trees[handle], session.today))
    return status_of(session)
