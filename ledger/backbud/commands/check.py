"""`backbud check`: every problem of the journal, and what was done out of its time."""

from __future__ import annotations

from argparse import Namespace

from backbud.commands.answers import print_json
from backbud.commands.journal import journal_options, session_of
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FINE, PROBLEMS
from backbud.say import Heading, say, say_problem
from backbud.session import Session


def add_options(parser: ArgumentParser) -> None:
    """The journal and the day."""
    journal_options(parser)


def run(options: Namespace) -> int:
    """Print the problems and how much was read."""
    session = session_of(options, only_check=True)
    problems = session.problems()
    if options.json:
        from backbud.views.problem import problem_view

        print_json(tuple(map(problem_view, problems)))
    elif not problems:
        say(f"No problems. {session.summary()}")
    else:
        from backbud.words import number

        for problem in problems:
            say_problem(problem)
        files = number(len({problem.file for problem in problems}), "file")
        say("", f"{number(len(problems), 'problem')} in {files}. {session.summary()}")
    if not options.json:
        _tell_cautions(session)
    return PROBLEMS if problems else FINE


def _tell_cautions(session: Session) -> None:
    """What was done or is planned out of its time; no problem of the journal, but of the tree."""
    found = session.cautions()
    if found:
        say("", Heading(f"Take care ({len(found)})"))
    for caution in found:
        at = f" ({caution.origin})" if caution.origin else ""
        say(f"  {caution.tree}: {caution.text}{at}")
