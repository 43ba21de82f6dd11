"""`backbud tree`: what a tree is, what is on it, what was done and what is due."""

from __future__ import annotations

from argparse import Namespace

from backbud.commands.answers import print_json
from backbud.commands.journal import journal_options, session_of, status_of
from backbud.commands.parser import ArgumentParser
from backbud.commands.who_is_meant import known_tree
from backbud.say import say
from backbud.tongue import in_english


def add_options(parser: ArgumentParser) -> None:
    """The tree; the journal and the day."""
    parser.add_argument("handle", metavar="HANDLE", help="the tree, by the short name of its card")
    journal_options(parser)
    about = "show your own words (cards of the kind “words”) as what they mean"
    parser.add_argument("--as-read", action="store_true", help=about)


def run(options: Namespace) -> int:
    """Print the tree."""
    session = session_of(options)
    handle = known_tree(session, options.handle)
    plan = session.plan([handle])
    from backbud.views.history import late_in
    from backbud.views.tree import planned_tree_view

    photographs = session.photographs_of(plan.trees[handle])
    shown = session.forgotten.told(
        planned_tree_view(
            plan,
            handle,
            session.names(),
            session.today,
            photographs,
            late_in(session.journal, session.today),
        )
    )
    if options.json:
        print_json(shown)
    else:
        from backbud.report import tree_lines

        say(*in_english(lambda: tree_lines(shown, session.today, as_read=options.as_read)))
    return status_of(session)
