"""`backbud why`: the chain of reasons of what is due, or of all that a tree has."""

from __future__ import annotations

import os
from argparse import Namespace
from collections.abc import Iterable
from functools import partial
from typing import TYPE_CHECKING

from backbud.commands.answers import print_json
from backbud.commands.journal import day_option, json_option, session_of, status_of
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import Misuse
from backbud.say import say
from backbud.tongue import in_english
from backbud_grammar.problems import did_you_mean

if TYPE_CHECKING:
    from backbud.plan.run import Plan
    from backbud.session import Session
    from backbud.views.work import WorkView


def add_options(parser: ArgumentParser) -> None:
    """What is asked about; the journal and the day."""
    parser.add_argument(
        "asked",
        metavar="ID",
        nargs="+",
        help="a tree, for all that it has; a tree and a work (heron repot); a work alone; a "
        "follow-up's id or a part of it. The journal's folder may stand behind it",
    )
    day_option(parser)
    json_option(parser)


def run(options: Namespace) -> int:
    """Print the reasons of one follow-up, of those of a name, or of every one of a tree."""
    from backbud.views.day import all_works, works_called, works_named

    options.folder, words = _parted(options.asked)
    session = session_of(options)
    tree = session.tree_handle(words[0])
    handle = tree or session.tree_of_id(words[0])
    plan = session.plan([handle] if handle else None)
    if tree and len(words) == 1:
        return _of_tree(options, session, plan, tree)
    some = plan.only([handle]) if handle else plan
    works = tuple(all_works(some, session.names(), session.today))
    found = () if tree or len(words) > 1 else works_called(words[0], works)
    found = found or works_named(words[1:] if tree else words, works)
    if not found:
        raise Misuse(_nothing(session, words, tree, works))
    if options.json:
        print_json(found)
    else:
        from backbud.report import why_lines

        open_ones = [work for work in found if work.is_open]
        for work in open_ones or found:
            say(*in_english(partial(why_lines, work, session.today)))
    return status_of(session)


def _parted(words: list[str]) -> tuple[str, list[str]]:
    """The folder, "" where none is named, and what is asked about."""
    if len(words) > 1 and os.path.isdir(words[-1]):
        return words[-1], words[:-1]
    return "", words


def _nothing(session: Session, words: list[str], tree: str, works: Iterable[WorkView]) -> str:
    """That nothing is so called, and what there is."""
    asked = " ".join(words[1:] if tree else words)
    nothing = f"nothing due has the id or the name “{asked}”"
    if not tree:
        near = (
            did_you_mean(words[0], session.histories.trees) or "backbud due --json prints the ids."
        )
        if len(words) > 1:
            return f"no tree is called “{words[0]}”, and {nothing}. {near}"
        return f"{nothing}, and no tree is so called. {near}"
    titles = sorted({work.title for work in works if work.is_open})
    what = f"What is open of {tree}: {', '.join(titles)}." if titles else "Nothing of it is open."
    return f"{nothing}. {what}"


def _of_tree(options: Namespace, session: Session, plan: Plan, handle: str) -> int:
    from backbud.views.day import all_works, open_first

    works = all_works(plan.only([handle]), session.names(), session.today)
    found = open_first(works, session.today)
    if options.json:
        print_json(found)
    else:
        from backbud.report import why_tree_lines

        say(*in_english(lambda: why_tree_lines(found, session.today)))
    return status_of(session)
