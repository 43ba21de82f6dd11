"""`backbud tree`: what a tree is, what is on it, what was done and what is due."""

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
    from backbud.session import Session


def add_options(parser: ArgumentParser) -> None:
    """The tree; the journal and the day."""
    parser.add_argument("handle", metavar="HANDLE")
    journal_options(parser)


def run(options: Namespace) -> int:
    """Print the tree."""
    session = session_of(options)
    handle = known_tree(session, options.handle)
    plan = session.plan([handle])
    tree = plan.trees[handle]
    follow_ups = plan.follow_ups[handle]
    if options.json:
        from backbud.report import tree_json

        due = [follow_up_json(f, session.today) for f in follow_ups if f.is_open(session.today)]
        print_json({**tree_json(tree), "due": due})
    else:
        from backbud.report import tree_lines

        say(*tree_lines(tree, plan.species[handle], follow_ups, session.today, session.names()))
    return status_of(session)


def known_tree(session: Session, written: str) -> str:
    """The handle of the tree that is meant; Misuse, with the nearest, where there is none."""
    handle = session.tree_handle(written)
    if not handle:
        near = session.nearest_tree(written)
        raise Misuse(f"no tree is called “{written}”. {near}".rstrip())
    return handle
