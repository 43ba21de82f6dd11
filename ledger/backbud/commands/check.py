"""`backbud check`: every problem of the journal, with its line."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence

from backbud.commands.answers import print_json
from backbud.commands.journal import journal_options, session_of
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FINE, PROBLEMS
from backbud.say import say, say_problem
from backbud_grammar.problems import Problem


def add_options(parser: ArgumentParser) -> None:
    """The journal and the day."""
    journal_options(parser)


def run(options: Namespace) -> int:
    """Print the problems and how much was read."""
    session = session_of(options, only_check=True)
    problems, kept = session.problems(), session.words_kept()
    if options.json:
        from backbud.views.problem import problem_view

        in_order = sorted((*problems, *kept), key=lambda one: (one.file, one.line, one.column))
        print_json(tuple(map(problem_view, in_order)))
        return PROBLEMS if problems else FINE
    for problem in problems:
        say_problem(problem)
    if kept:
        _say_kept(kept, behind=bool(problems))
    if not problems:
        say(*([""] if kept else []), f"No problems. {session.summary()}")
    else:
        from backbud.words import number

        files = number(len({problem.file for problem in problems}), "file")
        say("", f"{number(len(problems), 'problem')} in {files}. {session.summary()}")
    return PROBLEMS if problems else FINE


def _say_kept(kept: Sequence[Problem], *, behind: bool) -> None:
    """What was kept as words, a line for each, below one heading."""
    from backbud.say import Heading

    if behind:
        say("")
    say(Heading(f"Words kept, and not used ({len(kept)})"))
    for one in kept:
        say(f"  {one.file}:{one.line}: {one.source.strip()}")
        if one.code != "unread-line":
            say(f"      {one.message}")
        elif one.hint:
            say(f"      {one.hint}")
